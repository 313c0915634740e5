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
  const found = new Uint8Array(plane.length);
  const open = new Uint32Array(plane.length);
  let reached = 0;
  const reach = (at: number) => {
    if (found[at] === marks.rust || plane[at]! < from) return;
    found[at] = marks.rust;
    open[reached++] = at;
  };
  for (let seed = 0; seed < plane.length; seed++) {
    if (plane[seed]! < seedFrom || found[seed] === marks.rust) continue;
    reached = 0;
    reach(seed);
    for (let next = 0; next < reached; next++) {
      const at = open[next]!;
      const column = at % widthPx;
      for (let near = at - widthPx; near <= at + widthPx; near += widthPx) {
        if (near < 0 || near >= plane.length) continue;
        if (column > 0) reach(near - 1);
        reach(near);
        if (column < widthPx - 1) reach(near + 1);
      }
    }
    if (reached < leastPixels) for (let small = 0; small < reached; small++) found[open[small]!] = marks.notRust;
  }
  return found;
}
