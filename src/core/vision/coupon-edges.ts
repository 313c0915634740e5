/**
 * What the coupon's own four sides tell of a photograph without a card: its tilt and how far blur has drawn its edges out.
 *
 * Units    mm, degrees
 * Source   our own
 * Status   computed
 */
import { tiltDeg } from "./card-pose.ts";
import { type CornersPx, pxPerMmInPicture, type SizeMm } from "./coupon-plane.ts";
import { edgeCrossing } from "./edge-profile.ts";
import { homographyOf, type Point } from "./homography.ts";
import type { RgbImage } from "./raster.ts";

/** Tilt at the coupon's middle, degrees, from its corners and its size in mm. */
export function couponTiltDeg(corners: CornersPx, { lengthMm, widthMm }: SizeMm): number {
  const flat: Point[] = [
    [0, 0],
    [lengthMm, 0],
    [lengthMm, widthMm],
    [0, widthMm],
  ];
  return tiltDeg(homographyOf(flat, corners), [lengthMm / 2, widthMm / 2]);
}

const linesPerSide = 40;
const reachMm = 1.5;
const leastStep = 0.25;
const leastWidths = 12;

/**
 * 10 to 90 % width of the edges, mm, across x (left and right side) and across y: the sharpest fifth of what was found, since burrs and
 * rounded edges are broad by themselves. Null where too little of a side stands out from what lies around.
 */
export function couponEdgeWidth(
  photo: RgbImage,
  corners: CornersPx,
  size: SizeMm,
): { acrossX: number | null; acrossY: number | null } {
  const pxPerMm = pxPerMmInPicture(corners, size);
  const sides = corners.map((from, at) => sideWidths(photo, from, corners[(at + 1) % 4]!, pxPerMm));
  return {
    acrossX: sharpest([...sides[1]!, ...sides[3]!], pxPerMm),
    acrossY: sharpest([...sides[0]!, ...sides[2]!], pxPerMm),
  };
}

function sideWidths(photo: RgbImage, from: Point, to: Point, pxPerMm: number): number[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const inwards: Point = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  return Array.from({ length: linesPerSide }, (_, step) => {
    const share = 0.06 + (0.88 * (step + 0.5)) / linesPerSide;
    const middle: Point = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
    // Which side is the lighter one is not known without a card's paper: the crossing takes either.
    return edgeCrossing(photo, { middle, direction: inwards, reachPx: reachMm * pxPerMm, leastStep });
  }).flatMap((crossing) => (crossing && crossing.widthPx !== null ? [crossing.widthPx] : []));
}

function sharpest(widthsPx: readonly number[], pxPerMm: number): number | null {
  if (widthsPx.length < leastWidths) return null;
  const sorted = [...widthsPx].sort((a, b) => a - b);
  return sorted[Math.floor(0.2 * sorted.length)]! / pxPerMm;
}
