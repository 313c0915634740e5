/**
 * Rust spots of a face: how many, how large, where.
 *
 * A spot is rust that touches, corners included. One that reaches into the edge band counts with its part on the face; left-out places hold none.
 *
 * Units    mm, mm²
 * Source   our own
 * Status   common practice
 */
import type { FaceRectangle } from "./assessed-face.ts";
import { requireSize, type SizeMm } from "./coupon-plane.ts";
import { marks, type RustMask } from "./raster.ts";
import { touchingRuns } from "./touching-runs.ts";

export type Spot = {
  /** Middle of the spot from the coupon's top left. */
  xMm: number;
  yMm: number;
  areaMm2: number;
};

/** Fewer pixels than this are noise of the picture, not a spot. */
const leastPixels = 3;

/** Rust spots of the face, largest first. */
export function rustSpots(mask: RustMask, face: FaceRectangle, size: SizeMm): Spot[] {
  requireSize(size);
  const mmX = size.lengthMm / mask.widthPx;
  const mmY = size.widthMm / mask.heightPx;
  const faceWidth = face.right - face.left;
  const { starts, pasts, places } = touchingRuns(rustOnFace(mask, face), faceWidth);
  const pixels = new Float64Array(places.length);
  const sumX = new Float64Array(places.length);
  const sumY = new Float64Array(places.length);
  for (let run = 0; run < places.length; run++) {
    const place = places[run]!;
    const row = Math.floor(starts[run]! / faceWidth);
    const length = pasts[run]! - starts[run]!;
    pixels[place]! += length;
    sumX[place]! += length * (face.left - row * faceWidth + (starts[run]! + pasts[run]!) / 2);
    sumY[place]! += length * (face.top + row + 0.5);
  }
  const spots: Spot[] = [];
  for (const [place, count] of pixels.entries())
    if (count >= leastPixels)
      spots.push({ xMm: (sumX[place]! / count) * mmX, yMm: (sumY[place]! / count) * mmY, areaMm2: count * mmX * mmY });
  return spots.sort((one, other) => other.areaMm2 - one.areaMm2);
}

/** 1 where the face is rusted, row by row from its top left. */
function rustOnFace({ marks: mask, widthPx }: RustMask, { left, top, right, bottom }: FaceRectangle): Uint8Array {
  const onFace = new Uint8Array((right - left) * (bottom - top));
  for (let row = top, to = 0; row < bottom; row++, to += right - left)
    rustOfRow(mask, row * widthPx + left, row * widthPx + right, onFace, to);
  return onFace;
}

function rustOfRow(mask: Uint8Array, from: number, past: number, onFace: Uint8Array, to: number): void {
  for (let at = from, own = to; at < past; at++, own++) if (mask[at] === marks.rust) onFace[own] = 1;
}

/** Diameter in mm of the circle of a spot's area. */
export const spotDiameterMm = ({ areaMm2 }: Pick<Spot, "areaMm2">) => 2 * Math.sqrt(areaMm2 / Math.PI);

/** Lower limits of the size classes in which spots are counted, mm of diameter; the last is open. */
export const spotClassesMm = [0, 0.5, 1, 2, 5] as const;

/** How many spots fall into each size class. */
export function spotCounts(spots: readonly Spot[]): number[] {
  return spotClassesMm.map((fromMm, at) => {
    const below = spotClassesMm[at + 1] ?? Number.POSITIVE_INFINITY;
    return spots.filter((spot) => spotDiameterMm(spot) >= fromMm && spotDiameterMm(spot) < below).length;
  });
}
