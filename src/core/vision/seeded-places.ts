/**
 * Places above a limit that reach, without a gap, a place above a higher one: a faint rim belongs to its spot, faint specks alone do not count.
 *
 * Units    px; the plane's own unit
 * Source   two limits and connected places (eight neighbours)
 * Status   common practice
 */
import { marks } from "./raster.ts";

/** Marks for rust (per px) of a plane of log odds. `seedFrom` is the higher limit; a place of fewer than `leastPixels` is none. */
export function seededPlaces(
  plane: Float32Array,
  widthPx: number,
  { from, seedFrom, leastPixels }: { from: number; seedFrom: number; leastPixels: number },
): Uint8Array {
  const { rust, notRust } = marks;
  const found = new Uint8Array(plane.length);
  const open = new Int32Array(plane.length);
  for (let seed = 0; seed < plane.length; seed++) {
    if (plane[seed]! < seedFrom || found[seed] === rust) continue;
    found[seed] = rust;
    open[0] = seed;
    let count = 1;
    for (let next = 0; next < count; next++) {
      const at = open[next]!;
      const column = at % widthPx;
      const first = column > 0 ? -1 : 0;
      const last = column < widthPx - 1 ? 1 : 0;
      for (let middle = at - widthPx; middle <= at + widthPx; middle += widthPx) {
        if (middle < 0 || middle >= plane.length) continue;
        for (let near = middle + first; near <= middle + last; near++) {
          if (plane[near]! < from || found[near] === rust) continue;
          found[near] = rust;
          open[count++] = near;
        }
      }
    }
    if (count < leastPixels) for (let small = 0; small < count; small++) found[open[small]!] = notRust;
  }
  return found;
}
