/** What a photograph's quality gate is asked about, from the card in it or from the coupon's own sides. */
import { cardLight } from "../../core/vision/card-light.ts";
import { tiltDeg } from "../../core/vision/card-pose.ts";
import { couponEdgeWidth, couponTiltDeg } from "../../core/vision/coupon-edges.ts";
import { type CornersPx, pxPerMmInPicture, type SizeMm } from "../../core/vision/coupon-plane.ts";
import type { FoundCard } from "../../core/vision/find-card.ts";
import { mapped, stretchAt } from "../../core/vision/homography.ts";
import type { GateSight } from "../../core/vision/photo-gate.ts";
import type { RgbImage } from "../../core/vision/raster.ts";

/** Glare is seen on the straightened coupon, so it is added by who has one. */
type Sight = Omit<GateSight, "glarePercent">;

/** By the card: its light is read beside the corners (px) of what lies on it. */
export function cardSight(photo: RgbImage, found: FoundCard, coveredPx: CornersPx) {
  const { card, printScale, toPicture, markers, unevenMm } = found;
  const middle = windowPlace(found, 0.5, 0.5);
  return {
    pxPerMm: stretchAt(toPicture, middle).least,
    tiltDeg: tiltDeg(toPicture, middle),
    edgeWidthMm: {
      acrossX: medianOrNull(
        markers.map(({ edgeWidth }) => edgeWidth.acrossX),
        card.markerMm * printScale,
      ),
      acrossY: medianOrNull(
        markers.map(({ edgeWidth }) => edgeWidth.acrossY),
        card.markerMm * printScale,
      ),
    },
    card: { light: cardLight(photo, found, coveredPx), unevenMm, markers: markers.length },
  } satisfies Sight;
}

/** By the coupon alone. */
export function couponSight(photo: RgbImage, cornersPx: CornersPx, size: SizeMm): Sight {
  return {
    pxPerMm: pxPerMmInPicture(cornersPx, size),
    tiltDeg: couponTiltDeg(cornersPx, size),
    edgeWidthMm: couponEdgeWidth(photo, cornersPx, size),
    card: null,
  };
}

/** Corners of the card's window in the picture, px; `roundMm` beyond it on each side. */
export function windowCorners(found: FoundCard, roundMm = 0): CornersPx {
  const { lengthMm, widthMm } = windowSize(found);
  const [across, down] = [roundMm / lengthMm, roundMm / widthMm];
  const corner = (x: number, y: number) => mapped(found.toPicture, windowPlace(found, x, y));
  return [corner(-across, -down), corner(1 + across, -down), corner(1 + across, 1 + down), corner(-across, 1 + down)];
}

/** Size of the card's window as printed, mm. */
export function windowSize({ card: { window }, printScale }: FoundCard): SizeMm {
  return { lengthMm: window.widthMm * printScale, widthMm: window.heightMm * printScale };
}

/** A place in the window by its shares of width and height, mm on the print. */
function windowPlace({ card: { window }, printScale }: FoundCard, across: number, down: number) {
  return [
    (window.xMm + across * window.widthMm) * printScale,
    (window.yMm + down * window.heightMm) * printScale,
  ] as const;
}

function medianOrNull(shares: readonly (number | null)[], markerMm: number): number | null {
  const known = shares.filter((share) => share !== null).sort((a, b) => a - b);
  return known.length === 0 ? null : known[known.length >> 1]! * markerMm;
}
