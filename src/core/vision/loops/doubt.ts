/**
 * What a measurement's doubt is counted from: `rust-uncertainty.ts` says how.
 *
 * Units    log odds and marks per px
 * Source   our own
 * Status   computed
 */

/** Chances stand by log odds in steps of 1/64, from -16 to 16. */
const lastChance: f32 = 2048;

/**
 * Counts over a picture, into `counts` (four whole numbers): pixels above the far end of the limit, from the near end on, marked, and
 * in all; and by block of a row of `blocks` blocks, into `doubt` (doubles), the chances less the marks. `chances`: doubles by log
 * odds. `counted` is not 0 where a pixel counts.
 */
export function countDoubt(
  logOdds: usize,
  marked: usize,
  counted: usize,
  widthPx: i32,
  heightPx: i32,
  blocks: i32,
  limit: f32,
  up: f32,
  down: f32,
  rust: i32,
  leftOut: i32,
  chances: usize,
  doubt: usize,
  counts: usize,
): void {
  let lower: i32 = 0;
  let upper: i32 = 0;
  let marks: i32 = 0;
  let pixels: i32 = 0;
  for (let row: i32 = 0; row < heightPx; row++) {
    const blockRow = ((row * blocks) / heightPx) * blocks;
    for (let block: i32 = 0; block < blocks; block++) {
      const from = row * widthPx + (block * widthPx + blocks - 1) / blocks;
      const past = row * widthPx + ((block + 1) * widthPx + blocks - 1) / blocks;
      const own = doubt + ((<usize>(blockRow + block)) << 3);
      let sum = load<f64>(own);
      for (let at = from; at < past; at++) {
        const mark = <i32>load<u8>(marked + at);
        if (load<u8>(counted + at) === 0 || mark === leftOut) continue;
        const odds = load<f32>(logOdds + ((<usize>at) << 2)) - limit;
        // Just at the end: marked by the colour rule alone, so it may be none.
        lower += <i32>(odds > up);
        upper += <i32>(odds >= -down);
        const step = min(lastChance, max<f32>(0, (odds + 16) * 64 + 0.5));
        sum += load<f64>(chances + ((<usize>(<i32>step)) << 3));
        if (mark === rust) {
          marks++;
          sum -= 1;
        }
        pixels++;
      }
      store<f64>(own, sum);
    }
  }
  store<i32>(counts, lower);
  store<i32>(counts, upper, 4);
  store<i32>(counts, marks, 8);
  store<i32>(counts, pixels, 12);
}
