/**
 * Places of a raster whose pixels touch, by runs: `touching-runs.ts` and `seeded-places.ts` say what they are.
 *
 * Units    px
 * Source   connected places by runs and joined sets (eight neighbours)
 * Status   common practice
 */

/** 0, 1 or 2 for each value: below `from`, from it on, from `seedFrom` on. */
export function seedBytes(plane: usize, pixels: i32, from: f32, seedFrom: f32, bytes: usize): void {
  const froms = f32x4.splat(from);
  const seeds = f32x4.splat(seedFrom);
  let at: i32 = 0;
  for (; at + 16 <= pixels; at += 16) {
    const by = plane + ((<usize>at) << 2);
    const a = v128.load(by);
    const b = v128.load(by, 16);
    const c = v128.load(by, 32);
    const d = v128.load(by, 48);
    const highest = f32x4.max(f32x4.max(a, b), f32x4.max(c, d));
    if (!v128.any_true(f32x4.ge(highest, froms))) {
      v128.store(bytes + at, i8x16.splat(0));
      continue;
    }
    // What holds is -1 in each lane; 0 less two of them counts them.
    const within = narrowed(f32x4.ge(a, froms), f32x4.ge(b, froms), f32x4.ge(c, froms), f32x4.ge(d, froms));
    const sure = narrowed(f32x4.ge(a, seeds), f32x4.ge(b, seeds), f32x4.ge(c, seeds), f32x4.ge(d, seeds));
    v128.store(bytes + at, i8x16.neg(i8x16.add(within, v128.and(sure, within))));
  }
  for (; at < pixels; at++) {
    const value = load<f32>(plane + ((<usize>at) << 2));
    store<u8>(bytes + at, value >= from ? (value >= seedFrom ? 2 : 1) : 0);
  }
}

function narrowed(a: v128, b: v128, c: v128, d: v128): v128 {
  return i8x16.narrow_i16x8_s(i16x8.narrow_i32x4_s(a, b), i16x8.narrow_i32x4_s(c, d));
}

/**
 * Runs of bytes that are not 0, in reading order: first pixel, the one past the last, and the number of the first run of its place.
 * Three arrays of whole numbers with room for half as many as there are pixels and one more for each row. How many runs there are.
 */
export function touchingRuns(
  bytes: usize,
  widthPx: i32,
  heightPx: i32,
  starts: usize,
  pasts: usize,
  places: usize,
): i32 {
  let count: i32 = 0;
  let above: i32 = 0;
  for (let row = 0; row < heightPx; row++) {
    const own = count;
    count = addRuns(bytes, row * widthPx, (row + 1) * widthPx, count, starts, pasts, places);
    if (own < count && above < own) joinRows(above, own, count, widthPx, starts, pasts, places);
    above = own;
  }
  // A place's first run comes before all others of it: what stands there is already its name.
  for (let run: i32 = 0; run < count; run++) put(places, run, get(places, get(places, run)));
  return count;
}

function get(list: usize, at: i32): i32 {
  return load<i32>(list + ((<usize>at) << 2));
}

function put(list: usize, at: i32, value: i32): void {
  store<i32>(list + ((<usize>at) << 2), value);
}

function addRuns(bytes: usize, from: i32, past: i32, count: i32, starts: usize, pasts: usize, places: usize): i32 {
  let at = from;
  while (at < past) {
    // Most of a picture is in no place.
    while (at + 16 <= past && !v128.any_true(v128.load(bytes + at))) at += 16;
    while (at < past && load<u8>(bytes + at) === 0) {
      at++;
      if (((at - from) & 15) === 0) break;
    }
    if (at >= past || load<u8>(bytes + at) === 0) continue;
    put(starts, count, at);
    put(places, count, count);
    do at++;
    while (at < past && load<u8>(bytes + at) !== 0);
    put(pasts, count++, at);
  }
  return count;
}

/** Joins the runs from `own` on with those of the row above them, which begin at `above`. */
function joinRows(above: i32, own: i32, count: i32, widthPx: i32, starts: usize, pasts: usize, places: usize): void {
  let upper = above;
  for (let run = own; run < count; run++) {
    const start = get(starts, run) - widthPx;
    const past = get(pasts, run) - widthPx;
    while (upper < own && get(pasts, upper) < start) upper++;
    for (let near = upper; near < own && get(starts, near) <= past; near++) {
      const one = firstOf(near, places);
      const other = firstOf(run, places);
      if (one < other) put(places, other, one);
      else put(places, one, other);
    }
  }
}

function firstOf(run: i32, places: usize): i32 {
  let first = run;
  while (get(places, first) !== first) {
    put(places, first, get(places, get(places, first)));
    first = get(places, first);
  }
  return first;
}

/**
 * Turns seed bytes into `rust` or 0, in place: a place of fewer than `leastPixels`, or without a 2 in it, is none. `tallies` has a
 * whole number per run.
 */
export function seededToMarks(
  bytes: usize,
  count: i32,
  leastPixels: i32,
  rust: i32,
  starts: usize,
  pasts: usize,
  places: usize,
  tallies: usize,
): void {
  // Added to the pixels of a place once a seed was seen in it.
  const seeded: i32 = 1 << 30;
  memory.fill(tallies, 0, (<usize>count) << 2);
  for (let run: i32 = 0; run < count; run++) {
    const place = get(places, run);
    const start = get(starts, run);
    const past = get(pasts, run);
    let tally = get(tallies, place) + past - start;
    if (tally < seeded && hasSeed(bytes, start, past)) tally += seeded;
    put(tallies, place, tally);
  }
  for (let run: i32 = 0; run < count; run++) {
    const tally = get(tallies, get(places, run));
    const stays = tally >= seeded && tally - seeded >= leastPixels;
    const start = get(starts, run);
    memory.fill(bytes + start, <u8>(stays ? rust : 0), <usize>(get(pasts, run) - start));
  }
}

function hasSeed(bytes: usize, start: i32, past: i32): bool {
  for (let at = start; at < past; at++) if (load<u8>(bytes + at) === 2) return true;
  return false;
}
