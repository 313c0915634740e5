/**
 * Rust spots of a face: how many, how large, where.
 *
 * A spot is rust that touches, corners included. Spots are counted where their middle lies on the face; left-out places hold none.
 *
 * Units    mm, mm²
 * Source   our own
 * Status   common practice
 */
import type { FaceRectangle } from "./assessed-face.ts";
import { requireSize, type SizeMm } from "./coupon-plane.ts";
import { marks, type RustMask } from "./raster.ts";

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
  const { widthPx, heightPx } = mask;
  const mmX = size.lengthMm / widthPx;
  const mmY = size.widthMm / heightPx;
  const seen = new Uint8Array(mask.marks.length);
  const stack = new Int32Array(mask.marks.length);
  const onFace = (column: number, row: number) =>
    column >= face.left && column < face.right && row >= face.top && row < face.bottom;
  const spots: Spot[] = [];
  for (let row = face.top; row < face.bottom; row++)
    for (let column = face.left; column < face.right; column++) {
      const start = row * widthPx + column;
      if (mask.marks[start] !== marks.rust || seen[start] === 1) continue;
      let [depth, pixels, sumX, sumY] = [0, 0, 0, 0];
      stack[depth++] = start;
      seen[start] = 1;
      while (depth > 0) {
        const at = stack[--depth]!;
        const x = at % widthPx;
        const y = (at - x) / widthPx;
        pixels++;
        sumX += x + 0.5;
        sumY += y + 0.5;
        for (let nearY = y - 1; nearY <= y + 1; nearY++)
          for (let nearX = x - 1; nearX <= x + 1; nearX++) {
            const near = nearY * widthPx + nearX;
            if (!onFace(nearX, nearY) || seen[near] === 1 || mask.marks[near] !== marks.rust) continue;
            seen[near] = 1;
            stack[depth++] = near;
          }
      }
      if (pixels >= leastPixels)
        spots.push({ xMm: (sumX / pixels) * mmX, yMm: (sumY / pixels) * mmY, areaMm2: pixels * mmX * mmY });
    }
  return spots.sort((one, other) => other.areaMm2 - one.areaMm2);
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
