/**
 * Places warm enough to be rust, and cells without any: `rust-by-colour.ts` and `rust-features.ts` say what they are.
 *
 * Units    L*, a*, b* in; a byte per px or cell out
 * Source   as in rust-by-colour.ts
 * Status   common practice
 */

/**
 * 255 where a pixel is as warm as rust, 0 elsewhere. `limits`: least square of chroma of all, tangent of the least hue, highest L*
 * (f32 each); then by whole L* from 0 to 101 the square of the least chroma, then the tangent of the highest hue.
 */
export function warmPlaces(lightness: usize, a: usize, b: usize, pixels: i32, limits: usize, found: usize): void {
  const leastOfAll = load<f32>(limits);
  const least = f32x4.splat(leastOfAll);
  let at: i32 = 0;
  for (; at + 4 <= pixels; at += 4) {
    const by = (<usize>at) << 2;
    const reds = v128.load(a + by);
    const yellows = v128.load(b + by);
    const chroma2 = f32x4.add(f32x4.mul(reds, reds), f32x4.mul(yellows, yellows));
    // Of grey steel the answer is nearly always the same.
    if (!v128.any_true(f32x4.ge(chroma2, least))) {
      store<u32>(found + at, 0);
      continue;
    }
    for (let one = at; one < at + 4; one++) store<u8>(found + one, isWarm(lightness, a, b, one, limits));
  }
  for (; at < pixels; at++) store<u8>(found + at, isWarm(lightness, a, b, at, limits));
}

function isWarm(lightness: usize, a: usize, b: usize, at: i32, limits: usize): u8 {
  const by = (<usize>at) << 2;
  const greenRed = load<f32>(a + by);
  const blueYellow = load<f32>(b + by);
  const level = load<f32>(lightness + by);
  const chroma2 = greenRed * greenRed + blueYellow * blueYellow;
  if (chroma2 < load<f32>(limits) || greenRed <= 0) return 0;
  if (blueYellow < load<f32>(limits, 4) * greenRed || level > load<f32>(limits, 8)) return 0;
  const whole = (<usize>max<i32>(0, <i32>floor<f32>(level + 0.5))) << 2;
  if (chroma2 < load<f32>(limits + whole, 12)) return 0;
  return blueYellow <= load<f32>(limits + whole, 12 + 4 * 102) * greenRed ? 255 : 0;
}

/** 1 for each cell of 4 x 4 px in which no pixel's a* and b* together are above `least`. */
export function coldCells(a: usize, b: usize, widthPx: i32, heightPx: i32, least: f32, cold: usize): void {
  const cellColumns = (widthPx + 3) >> 2;
  memory.fill(cold, 1, <usize>(cellColumns * ((heightPx + 3) >> 2)));
  const leasts = f32x4.splat(least);
  for (let row = 0; row < heightPx; row++) {
    const cells = cold + <usize>((row >> 2) * cellColumns);
    const start = (<usize>(row * widthPx)) << 2;
    let column: i32 = 0;
    for (; column + 4 <= widthPx; column += 4) {
      const by = start + ((<usize>column) << 2);
      const warmth = f32x4.add(v128.load(a + by), v128.load(b + by));
      if (v128.any_true(f32x4.gt(warmth, leasts))) store<u8>(cells + (column >> 2), 0);
    }
    for (; column < widthPx; column++) {
      const by = start + ((<usize>column) << 2);
      if (load<f32>(a + by) + load<f32>(b + by) > least) store<u8>(cells + (column >> 2), 0);
    }
  }
}
