/**
 * What the model and the colour rule say of the same pixels, laid together: `rust-by-model.ts` says how.
 *
 * Units    log odds, marks and words (0 or 1) per px
 * Source   our own
 * Status   computed
 */

/** Marks (0 or 255) become words. */
export function toOnes(marked: usize, pixels: i32): void {
  let at: i32 = 0;
  for (; at + 16 <= pixels; at += 16) v128.store(marked + at, v128.and(v128.load(marked + at), i8x16.splat(1)));
  for (; at < pixels; at++) store<u8>(marked + at, load<u8>(marked + at) & 1);
}

/**
 * Four whole numbers into `counts`: pixels of the face, how many of them are marked, have a word of 1, and both. `face` (not 0 = counted); 0: all
 * pixels.
 */
export function countWords(marked: usize, byColour: usize, face: usize, pixels: i32, counts: usize): void {
  let onFace: i32 = 0;
  let byModel: i32 = 0;
  let byRule: i32 = 0;
  let byBoth: i32 = 0;
  for (let at: i32 = 0; at < pixels; at++) {
    if (face !== 0 && load<u8>(face + at) === 0) continue;
    const model = load<u8>(marked + at) & 1;
    const rule = load<u8>(byColour + at);
    onFace++;
    byModel += model;
    byRule += rule;
    byBoth += model & rule;
  }
  store<i32>(counts, onFace);
  store<i32>(counts, byModel, 4);
  store<i32>(counts, byRule, 8);
  store<i32>(counts, byBoth, 12);
}

/** Where a word is 1, at least these log odds. */
export function raise(logOdds: usize, byColour: usize, pixels: i32, least: f32): void {
  for (let at: i32 = 0; at < pixels; at++)
    if (load<u8>(byColour + at) !== 0) {
      const by = logOdds + ((<usize>at) << 2);
      store<f32>(by, max(load<f32>(by), least));
    }
}

/** Where a word is 1 and no touched mark is set, these log odds. */
export function raiseUntouched(logOdds: usize, byColour: usize, touched: usize, pixels: i32, to: f32): void {
  for (let at: i32 = 0; at < pixels; at++)
    if (load<u8>(byColour + at) !== 0 && load<u8>(touched + at) === 0) store<f32>(logOdds + ((<usize>at) << 2), to);
}

/** Words of 1 become 2 where a mark is set, too. */
export function addSeeds(words: usize, marked: usize, pixels: i32): void {
  let at: i32 = 0;
  for (; at + 16 <= pixels; at += 16) {
    const word = v128.load(words + at);
    v128.store(words + at, i8x16.add(word, v128.and(word, v128.load(marked + at))));
  }
  for (; at < pixels; at++) {
    const word = load<u8>(words + at);
    store<u8>(words + at, word + (word & load<u8>(marked + at)));
  }
}
