/**
 * Places that are not judged, and faces that are no rectangle, drawn as polygons in mm on the coupon seen square on.
 *
 * Units    mm
 * Source   even-odd rule: a pixel is inside when its centre is
 * Status   computed
 */
import { InputError, requireFinite } from "../input-error.ts";
import { requireSize, type SizeMm } from "./coupon-plane.ts";
import type { Point } from "./homography.ts";
import { marks, type RustMask } from "./raster.ts";

/** Three corners or more, in mm from the coupon's top left. */
export type Polygon = readonly Point[];

/** A new mask in which the polygons (holes, stamp, wires, labels) are left out. */
export function withHidden(mask: RustMask, size: SizeMm, hidden: readonly Polygon[]): RustMask {
  const covered = mask.marks.slice();
  for (const [at, polygon] of hidden.entries())
    eachInside(mask, size, `hiddenMm[${at}]`, polygon, (pixel) => {
      covered[pixel] = marks.leftOut;
    });
  return { ...mask, marks: covered };
}

/** A new mask in which all outside the outline (mm) is left out: the face of an odd shape, without a band. */
export function withinOutline(mask: RustMask, size: SizeMm, outline: Polygon): RustMask {
  const kept = new Uint8Array(mask.marks.length).fill(marks.leftOut);
  eachInside(mask, size, "outlineMm", outline, (pixel) => {
    kept[pixel] = mask.marks[pixel]!;
  });
  return { ...mask, marks: kept };
}

function eachInside(
  { widthPx, heightPx }: RustMask,
  size: SizeMm,
  argument: string,
  polygon: Polygon,
  visit: (pixel: number) => void,
): void {
  requireSize(size);
  if (polygon.length < 3) throw new InputError(argument, `${polygon.length} corners`, "three corners or more");
  for (const [x, y] of polygon) {
    requireFinite(argument, x);
    requireFinite(argument, y);
  }
  for (let row = 0; row < heightPx; row++) {
    const y = ((row + 0.5) * size.widthMm) / heightPx;
    const crossings = polygon
      .flatMap(([ax, ay], at) => {
        const [bx, by] = polygon[(at + 1) % polygon.length]!;
        return ay <= y === by <= y ? [] : [ax + ((y - ay) / (by - ay)) * (bx - ax)];
      })
      .sort((a, b) => a - b);
    for (let pair = 0; pair + 1 < crossings.length; pair += 2) {
      const from = Math.max(0, Math.ceil((crossings[pair]! / size.lengthMm) * widthPx - 0.5));
      const to = Math.min(widthPx - 1, Math.ceil((crossings[pair + 1]! / size.lengthMm) * widthPx - 0.5) - 1);
      for (let column = from; column <= to; column++) visit(row * widthPx + column);
    }
  }
}
