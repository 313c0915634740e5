/**
 * Places above a limit that reach, without a gap, a place above a higher one: a faint rim belongs to its spot, faint specks alone do not count.
 *
 * Units    px; the plane's own unit
 * Source   two limits and connected places (eight neighbours)
 * Status   common practice
 */
import { marks } from "./raster.ts";
import { touchingRuns } from "./touching-runs.ts";

/** What a byte says before it becomes a mark: in no place, in a place, and sure enough for the whole place to count. */
const seedBytes = { none: 0, within: 1, seed: 2 } as const;

/** Marks for rust (per px) of a plane of log odds. `seedFrom` is the higher limit; a place of fewer than `leastPixels` is none. */
export function seededPlaces(
  plane: Float32Array,
  widthPx: number,
  { from, seedFrom, leastPixels }: { from: number; seedFrom: number; leastPixels: number },
): Uint8Array {
  const found = new Uint8Array(plane.length);
  for (let row = 0; row < plane.length; row += widthPx) seedBytesOf(plane, row, row + widthPx, from, seedFrom, found);
  seededToMarks(found, widthPx, leastPixels);
  return found;
}

function seedBytesOf(plane: Float32Array, start: number, past: number, from: number, seedFrom: number, to: Uint8Array) {
  for (let at = start; at < past; at++) if (plane[at]! >= from) to[at] = plane[at]! >= seedFrom ? 2 : 1;
}

/** Turns seed bytes into marks for rust (per px), in place. A place of fewer than `leastPixels`, or without a seed, is none. */
export function seededToMarks(bytes: Uint8Array, widthPx: number, leastPixels: number): void {
  const { starts, pasts, places } = touchingRuns(bytes, widthPx);
  const pixels = new Uint32Array(places.length);
  const isSeeded = new Uint8Array(places.length);
  for (let run = 0; run < places.length; run++) {
    const place = places[run]!;
    pixels[place]! += pasts[run]! - starts[run]!;
    if (isSeeded[place] === 0 && hasSeed(bytes, starts[run]!, pasts[run]!)) isSeeded[place] = 1;
  }
  for (let run = 0; run < places.length; run++) {
    const place = places[run]!;
    const stays = isSeeded[place] === 1 && pixels[place]! >= leastPixels;
    bytes.fill(stays ? marks.rust : marks.notRust, starts[run]!, pasts[run]!);
  }
}

function hasSeed(bytes: Uint8Array, start: number, past: number): boolean {
  for (let at = start; at < past; at++) if (bytes[at] === seedBytes.seed) return true;
  return false;
}
