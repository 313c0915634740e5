/**
 * Connected places of a raster by their runs along the rows: two runs are of one place where they touch, corners included.
 *
 * Rows are read once from top to bottom, so nothing is looked up at random and no pixel is asked about its eight neighbours.
 *
 * Units    px
 * Source   connected places by runs and joined sets (eight neighbours)
 * Status   common practice
 */
import { addressOf, kept, lentWholes, pixelLoops } from "./pixel-loops.ts";

/** Runs in reading order. */
export type TouchingRuns = {
  /** First pixel of each run, and the one past its last. */
  starts: Int32Array;
  pasts: Int32Array;
  /** Of each run the first run of its place, by number; a place is named by it. */
  places: Int32Array;
};

/** Runs of bytes that are not 0, and which of them touch. */
export function touchingRuns(bytes: Uint8Array, widthPx: number): TouchingRuns {
  return kept(() => {
    const rows = bytes.length / widthPx;
    // Every second pixel of a row a run of its own: there cannot be more.
    const most = rows * Math.ceil(widthPx / 2);
    const [starts, pasts, places] = [lentWholes(most), lentWholes(most), lentWholes(most)];
    const { touchingRuns: find } = pixelLoops();
    const count = find(addressOf(bytes), widthPx, rows, starts.byteOffset, pasts.byteOffset, places.byteOffset);
    return {
      starts: starts.subarray(0, count),
      pasts: pasts.subarray(0, count),
      places: places.subarray(0, count),
    };
  });
}
