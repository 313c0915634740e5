/**
 * A hand's correction: strokes in mm on the rectified coupon, painted over the mask in their order.
 *
 * Units    mm on the rectified coupon
 * Source   our own
 * Status   common practice
 */
import { InputError, requireFinite, requirePositive } from "../input-error.ts";
import { requireSize, type SizeMm } from "./coupon-plane.ts";
import { marks, type RustMask } from "./raster.ts";

export type Stroke = {
  paint: "rust" | "not rust" | "left out";
  widthMm: number;
  /** Centre line; one point is a dab. Parts outside the coupon paint nothing. */
  pointsMm: readonly (readonly [number, number])[];
};

const markOf = { rust: marks.rust, "not rust": marks.notRust, "left out": marks.leftOut } as const;

/** A new mask with the strokes (mm) painted on; the one handed in stays as it was. Refuses a stroke without a point or width. */
export function withStrokes(mask: RustMask, size: SizeMm, strokes: readonly Stroke[]): RustMask {
  requireSize(size);
  const painted = { ...mask, marks: mask.marks.slice() };
  for (const [at, stroke] of strokes.entries()) {
    requirePositive(`strokes[${at}].widthMm`, stroke.widthMm);
    const first = stroke.pointsMm[0];
    if (!first) throw new InputError(`strokes[${at}].pointsMm`, stroke.pointsMm, "at least one point");
    for (const [x, y] of stroke.pointsMm) {
      requireFinite(`strokes[${at}].pointsMm`, x);
      requireFinite(`strokes[${at}].pointsMm`, y);
    }
    let from = first;
    for (const to of stroke.pointsMm) {
      paintSegment(painted, size, { from, to, radiusMm: stroke.widthMm / 2, mark: markOf[stroke.paint] });
      from = to;
    }
  }
  return painted;
}

type Segment = { from: readonly [number, number]; to: readonly [number, number]; radiusMm: number; mark: number };

function paintSegment(mask: RustMask, size: SizeMm, { from, to, radiusMm, mark }: Segment): void {
  const mmPerPxX = size.lengthMm / mask.widthPx;
  const mmPerPxY = size.widthMm / mask.heightPx;
  const [alongX, alongY] = [to[0] - from[0], to[1] - from[1]];
  const length2 = alongX ** 2 + alongY ** 2;
  const firstRow = Math.max(0, Math.floor((Math.min(from[1], to[1]) - radiusMm) / mmPerPxY));
  const lastRow = Math.min(mask.heightPx - 1, Math.ceil((Math.max(from[1], to[1]) + radiusMm) / mmPerPxY));
  const firstColumn = Math.max(0, Math.floor((Math.min(from[0], to[0]) - radiusMm) / mmPerPxX));
  const lastColumn = Math.min(mask.widthPx - 1, Math.ceil((Math.max(from[0], to[0]) + radiusMm) / mmPerPxX));
  for (let row = firstRow; row <= lastRow; row++)
    for (let column = firstColumn; column <= lastColumn; column++) {
      const x = (column + 0.5) * mmPerPxX - from[0];
      const y = (row + 0.5) * mmPerPxY - from[1];
      const along = length2 === 0 ? 0 : Math.min(1, Math.max(0, (x * alongX + y * alongY) / length2));
      const away2 = (x - along * alongX) ** 2 + (y - along * alongY) ** 2;
      if (away2 <= radiusMm ** 2) mask.marks[row * mask.widthPx + column] = mark;
    }
}
