/**
 * Places above a limit that reach, without a gap, a place above a higher one: a faint rim belongs to its spot, faint specks alone do not count.
 *
 * Units    px; the plane's own unit
 * Source   two limits and connected places (eight neighbours)
 * Status   common practice
 */
import { addressOf, inRoom, kept, lentBytes, lentWholes, pixelLoops, placeOf } from "./pixel-loops.ts";
import { marks } from "./raster.ts";
import { touchingRuns } from "./touching-runs.ts";

/** Marks for rust (per px) of a plane of log odds. `seedFrom` is the higher limit; a place of fewer than `leastPixels` is none. */
export function seededPlaces(
  plane: Float32Array,
  widthPx: number,
  { from, seedFrom, leastPixels }: { from: number; seedFrom: number; leastPixels: number },
): Uint8Array {
  return kept(() => {
    const found = lentBytes(plane.length);
    inRoom(() => pixelLoops().seedBytes(addressOf(plane), plane.length, from, seedFrom, found.byteOffset));
    seededToMarks(found, widthPx, leastPixels);
    return found;
  });
}

/**
 * Turns lent seed bytes into marks for rust (per px), in place: 0 is in no place, 1 in one, 2 is sure enough for the whole place to
 * count. A place of fewer than `leastPixels`, or without a 2, is none.
 */
export function seededToMarks(bytes: Uint8Array, widthPx: number, leastPixels: number): void {
  inRoom(() => {
    const { starts, pasts, places } = touchingRuns(bytes, widthPx);
    const tallies = lentWholes(starts.length).byteOffset;
    const runs = [starts.byteOffset, pasts.byteOffset, places.byteOffset] as const;
    pixelLoops().seededToMarks(placeOf(bytes), starts.length, leastPixels, marks.rust, ...runs, tallies);
  });
}
