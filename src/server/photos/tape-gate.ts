/** Whether a photograph of a cut is good enough to be read, and whether a measuring card in it agrees with the spacing that was chosen. */
import { cutSizeSentence } from "../../core/rating/cut-size.ts";
import { couponTiltDeg } from "../../core/vision/coupon-edges.ts";
import { type CornersPx, pxPerMmInPicture } from "../../core/vision/coupon-plane.ts";
import type { FoundCard } from "../../core/vision/find-card.ts";
import { inverted, mapped } from "../../core/vision/homography.ts";
import { type GateCheck, gateSentence, glarePercentOf, photoGate } from "../../core/vision/photo-gate.ts";
import type { RgbImage } from "../../core/vision/raster.ts";
import { rectify } from "../../core/vision/rectify.ts";
import { type CutPattern, patternSize } from "../../core/vision/tape-cuts.ts";
import { cardSight, windowCorners } from "./photo-sight.ts";

/** Our own limit: the brightest twentieth of a cut region below it is too dark to tell paint from what lies bare, sRGB byte. */
const leastByte = 45;

/** What is wrong with the picture, and what to do; null where it may be read. `card`: as found in it. */
export function tapeGate(
  photo: RgbImage,
  { cornersPx, pattern, card }: { cornersPx: CornersPx; pattern: CutPattern; card: FoundCard | null },
): string | null {
  const size = patternSize(pattern);
  const { image } = rectify(photo, cornersPx, size);
  const whole = { left: 0, top: 0, right: image.widthPx, bottom: image.heightPx };
  if (brightByte(image) < leastByte)
    return "It is too dark to tell paint from what lies bare. Give it more light: a window without sun, or two lamps.";
  // The coupon reaches beyond its cut, nobody knows how far: none of the window is taken for paper.
  const sentence = gateSentence(
    photoGate({
      ...(card ? cardSight(photo, card, windowCorners(card)) : noCard(cornersPx, size)),
      pxPerMm: pxPerMmInPicture(cornersPx, size),
      glarePercent: glarePercentOf(image, whole),
    }).map((check) => aboutCut(check, card !== null)),
  );
  return sentence ?? (card && cutSizeSentence(sidesMm(card, cornersPx), pattern));
}

/** The gate speaks of a coupon's face and of a card: here it is a cut that is looked at, and there may be no card. */
function aboutCut(check: GateCheck, hasCard: boolean): GateCheck {
  if (check.what === "glare") return { ...check, says: `A lamp mirrors in ${check.measured.toFixed(0)} % of the cut.` };
  if (check.what === "tilt" && !hasCard)
    return { ...check, advice: "Hold it more above, its back level with the coupon." };
  return check;
}

// A cut has no edge of its own whose sharpness could be told without a card.
const noCard = (cornersPx: CornersPx, size: ReturnType<typeof patternSize>) => ({
  tiltDeg: couponTiltDeg(cornersPx, size),
  edgeWidthMm: { acrossX: null, acrossY: null },
  card: null,
});

function brightByte({ rgb }: RgbImage): number {
  const brightest = Uint8Array.from({ length: rgb.length / 3 }, (_, at) =>
    Math.max(...rgb.subarray(at * 3, at * 3 + 3)),
  );
  return brightest.sort()[Math.floor(0.95 * brightest.length)]!;
}

/** Mean length of the two long and the two short sides on the card's plane, mm. */
function sidesMm(card: FoundCard, cornersPx: CornersPx): { lengthMm: number; widthMm: number } {
  const toCard = inverted(card.toPicture);
  const places = cornersPx.map((corner) => mapped(toCard, corner));
  const side = (from: number) => {
    const [a, b] = [places[from]!, places[(from + 1) % 4]!];
    return Math.hypot(a[0] - b[0], a[1] - b[1]);
  };
  return { lengthMm: (side(0) + side(2)) / 2, widthMm: (side(1) + side(3)) / 2 };
}
