/**
 * The coupon in the card's window: its four corners in the picture, and its size as measured.
 *
 * What differs from the paper around gives the rough place. Then each side is looked for as the straight line along which the light
 * changes most. A raised coupon's shadow makes a second such line beside the true one, so of all pairs of opposite lines the one is
 * taken whose distance comes nearest to the size in the plan. Last, the sides are fitted in the picture itself, finer than a pixel.
 *
 * Units    mm on the card and on the coupon, px in the picture
 * Source   our own
 * Status   computed
 */
import { requirePositive } from "../input-error.ts";
import { type Camera, planeAbove } from "./card-pose.ts";
import type { CornersPx, SizeMm } from "./coupon-plane.ts";
import { coupleOfLines, sideLines } from "./coupon-sides.ts";
import { edgeCrossing } from "./edge-profile.ts";
import type { FoundCard } from "./find-card.ts";
import { fittedLine, type Line, meeting } from "./fitted-line.ts";
import { inverted, mapped, type Point } from "./homography.ts";
import type { RgbImage } from "./raster.ts";
import { roughCoupon } from "./rough-coupon.ts";
import { windowImage } from "./window-image.ts";

export type FoundCoupon = {
  /** Clockwise from the top left as the card lies: length along the first side. */
  cornersPx: CornersPx;
  /** As measured on the plane of the coupon's top. */
  sizeMm: SizeMm;
  /** 0 to 1: the least share of a side along which its edge was found where its line runs. */
  confidence: number;
};

/** Below this confidence, or farther from the size in the plan than a coupon is cut, the corners are set by hand. */
const leastConfidence = 0.6;
const mostOffSize = { share: 0.01, mm: 1 };

/** Whether the corners found may be taken without a hand: clear edges, and the size that the plan says. */
export function isTrusted({ sizeMm, confidence }: FoundCoupon, expected: SizeMm): boolean {
  const fits = (measuredMm: number, plannedMm: number) =>
    Math.abs(measuredMm - plannedMm) <= Math.max(mostOffSize.mm, mostOffSize.share * plannedMm);
  return (
    confidence >= leastConfidence && fits(sizeMm.lengthMm, expected.lengthMm) && fits(sizeMm.widthMm, expected.widthMm)
  );
}

/** Scale of the copy in which the sides are looked for. */
const searchPxPerMm = 5;
const linesPerSide = 60;
const searchReachMm = 0.9;
const leastStep = 0.06;

/** Null where nothing in the window looks like a coupon. `expected`: size and thickness from the plan, its length lying across the card. */
export function findCoupon(
  photo: RgbImage,
  found: FoundCard,
  camera: Camera,
  expected: SizeMm & { thicknessMm: number },
): FoundCoupon | null {
  requirePositive("expected.lengthMm", expected.lengthMm);
  requirePositive("expected.widthMm", expected.widthMm);
  const { window } = found.card;
  const scaled = {
    xMm: window.xMm * found.printScale,
    yMm: window.yMm * found.printScale,
    widthMm: window.widthMm * found.printScale,
    heightMm: window.heightMm * found.printScale,
  };
  const top = planeAbove(found.toPicture, camera, expected.thicknessMm);
  const image = windowImage(photo, top, scaled, searchPxPerMm);
  const rough = roughCoupon(image);
  if (!rough) return null;
  const lines = sideLines(image, rough);
  const across = coupleOfLines(lines.left, lines.right, expected.lengthMm);
  const down = coupleOfLines(lines.top, lines.bottom, expected.widthMm);
  if (!across || !down) return null;
  const sides = [down.first, across.second, down.second, across.first];
  const fitted = sides.map((side) => {
    const from = mapped(top, side.from);
    const to = mapped(top, side.to);
    return fittedSide(photo, from, to, Math.hypot(to[0] - from[0], to[1] - from[1]) / distance(side.from, side.to));
  });
  const [upper, right, lower, left] = fitted;
  if (!upper || !right || !lower || !left) return null;
  const met = [
    meeting(left.line, upper.line),
    meeting(upper.line, right.line),
    meeting(right.line, lower.line),
    meeting(lower.line, left.line),
  ];
  const [a, b, c, d] = met;
  if (!a || !b || !c || !d) return null;
  const back = inverted(top);
  const [ma, mb, mc, md] = [mapped(back, a), mapped(back, b), mapped(back, c), mapped(back, d)];
  return {
    cornersPx: [a, b, c, d],
    sizeMm: {
      lengthMm: (distance(ma, mb) + distance(md, mc)) / 2,
      widthMm: (distance(ma, md) + distance(mb, mc)) / 2,
    },
    confidence: Math.min(upper.share, right.share, lower.share, left.share),
  };
}

const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(ax - bx, ay - by);

/** A side in the picture (px), clockwise round the coupon: the steel lies to the right of the way along. */
function fittedSide(photo: RgbImage, from: Point, to: Point, pxPerMm: number): { line: Line; share: number } | null {
  const length = distance(from, to);
  const inwards: Point = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  const points = Array.from({ length: linesPerSide }, (_, step) => {
    const share = 0.06 + (0.88 * (step + 0.5)) / linesPerSide;
    const middle: Point = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
    return edgeCrossing(photo, { middle, direction: inwards, reachPx: searchReachMm * pxPerMm, leastStep });
  }).flatMap((crossing) => (crossing ? [crossing.point] : []));
  const line = fittedLine(points, 0.12 * pxPerMm);
  return line && line.kept >= linesPerSide / 4 ? { line, share: line.kept / linesPerSide } : null;
}
