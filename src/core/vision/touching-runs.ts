/**
 * Connected places of a raster by their runs along the rows: two runs are of one place where they touch, corners included.
 *
 * Rows are read once from top to bottom, so nothing is looked up at random and no pixel is asked about its eight neighbours.
 *
 * Units    px
 * Source   connected places by runs and joined sets (eight neighbours)
 * Status   common practice
 */

/** Runs in reading order. The arrays grow as they are found: of most pictures they are few. */
export type TouchingRuns = {
  /** First pixel of each run, and the one past its last. */
  starts: number[];
  pasts: number[];
  /** Of each run the first run of its place, by number; a place is named by it. */
  places: number[];
};

/** Runs of bytes that are not 0, and which of them touch. */
export function touchingRuns(bytes: Uint8Array, widthPx: number): TouchingRuns {
  const runs: TouchingRuns = { starts: [], pasts: [], places: [] };
  const { starts, pasts, places } = runs;
  const fours = new Uint32Array(bytes.buffer, bytes.byteOffset, bytes.length >> 2);
  let above = 0;
  for (let row = 0; row < bytes.length; row += widthPx) {
    const own = starts.length;
    addRuns(bytes, fours, row, row + widthPx, starts, pasts, places);
    if (own < starts.length && above < own) joinRows(above, own, widthPx, starts, pasts, places);
    above = own;
  }
  // A place's first run comes before all others of it: what stands there is already its name.
  for (let run = 0; run < places.length; run++) places[run] = places[places[run]!]!;
  return runs;
}

function addRuns(
  bytes: Uint8Array,
  fours: Uint32Array,
  from: number,
  past: number,
  starts: number[],
  pasts: number[],
  places: number[],
): void {
  for (let at = from; at < past; at++) {
    if (bytes[at] === 0) {
      // Most of a picture is in no place: passed by four bytes at a time.
      if ((at & 3) === 0 && fours[at >> 2] === 0) at += 3;
      continue;
    }
    places.push(starts.length);
    starts.push(at);
    do at++;
    while (at < past && bytes[at] !== 0);
    pasts.push(at);
  }
}

/** Joins the runs from `own` on with those of the row above them, which begin at `above`. */
function joinRows(
  above: number,
  own: number,
  widthPx: number,
  starts: number[],
  pasts: number[],
  places: number[],
): void {
  for (let run = own, upper = above; run < starts.length; run++) {
    const start = starts[run]! - widthPx;
    const past = pasts[run]! - widthPx;
    while (upper < own && pasts[upper]! < start) upper++;
    for (let near = upper; near < own && starts[near]! <= past; near++) join(near, run, places);
  }
}

function join(one: number, other: number, places: number[]): void {
  const a = firstOf(one, places);
  const b = firstOf(other, places);
  if (a < b) places[b] = a;
  else places[a] = b;
}

function firstOf(run: number, places: number[]): number {
  let first = run;
  while (places[first] !== first) {
    places[first] = places[places[first]!]!;
    first = places[first]!;
  }
  return first;
}
