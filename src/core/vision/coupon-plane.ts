/**
 * From the coupon's plane, in mm, to the picture, in pixels: four corners fix the perspective.
 *
 * Corners run clockwise from the coupon's top left as its number reads; length lies along the first side.
 * Picture coordinates are continuous: the first pixel reaches from 0 to 1.
 *
 * Units    mm on the coupon, px in the picture
 * Source   projective geometry: four points of a plane fix the map
 * Status   computed
 */
import { InputError, requireFinite, requirePositive } from "../input-error.ts";

export type PointPx = readonly [number, number];
export type CornersPx = readonly [PointPx, PointPx, PointPx, PointPx];
export type SizeMm = { lengthMm: number; widthMm: number };

/** x = (a u + b v + c) / (g u + h v + 1) and y with d, e, f, for u and v from 0 to 1 along length and width. */
export type Perspective = {
  a: number;
  b: number;
  c: number;
  d: number;
  e: number;
  f: number;
  g: number;
  h: number;
};

/** The perspective that carries the unit square to four corners in pixels. Refuses corners that no flat coupon can have. */
export function perspectiveOf(corners: CornersPx): Perspective {
  requireCorners(corners);
  const [[x0, y0], [x1, y1], [x2, y2], [x3, y3]] = corners;
  const sx = x0 - x1 + x2 - x3;
  const sy = y0 - y1 + y2 - y3;
  const [dx1, dy1, dx2, dy2] = [x1 - x2, y1 - y2, x3 - x2, y3 - y2];
  const det = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / det;
  const h = (dx1 * sy - sx * dy1) / det;
  return {
    a: x1 - x0 + g * x1,
    b: x3 - x0 + h * x3,
    c: x0,
    d: y1 - y0 + g * y1,
    e: y3 - y0 + h * y3,
    f: y0,
    g,
    h,
  };
}

/** A corner nearer than this to the line through its neighbours is not one, px. */
const flattestCornerPx = 2;

function requireCorners(corners: CornersPx): void {
  for (const [at, corner] of corners.entries()) for (const value of corner) requireFinite(`cornersPx[${at}]`, value);
  const turns = corners.map((corner, at) => {
    const before = corners[(at + 3) % 4]!;
    const after = corners[(at + 1) % 4]!;
    const across = Math.hypot(after[0] - before[0], after[1] - before[1]);
    return (
      ((corner[0] - before[0]) * (after[1] - corner[1]) - (corner[1] - before[1]) * (after[0] - corner[0])) / across
    );
  });
  const clockwise = turns.filter((turn) => turn >= flattestCornerPx).length;
  const anticlockwise = turns.filter((turn) => turn <= -flattestCornerPx).length;
  if (anticlockwise === 4)
    throw new InputError("cornersPx", corners, "corners in clockwise order, beginning at the top left");
  if (clockwise < 4)
    throw new InputError(
      "cornersPx",
      corners,
      "four corners in order round the coupon, none in line with its neighbours",
    );
}

/** Pixels of the picture per mm of the coupon: the square root of area over area. */
export function pxPerMmInPicture(corners: CornersPx, size: SizeMm): number {
  requireSize(size);
  const [[x0, y0], [x1, y1], [x2, y2], [x3, y3]] = corners;
  const areaPx = Math.abs((x2 - x0) * (y3 - y1) - (x3 - x1) * (y2 - y0)) / 2;
  return Math.sqrt(areaPx / (size.lengthMm * size.widthMm));
}

/** Refuses a length or width in mm that is not above 0. */
export function requireSize(size: SizeMm): void {
  requirePositive("sizeMm.lengthMm", size.lengthMm);
  requirePositive("sizeMm.widthMm", size.widthMm);
}
