/**
 * Rust that came since a coupon's own first photograph: what the model calls rust and what is also redder than it was.
 *
 * Both pictures show the coupon square on, at the same size. A stain, primer, heat tint or machining mark that was there
 * at first has not changed and is not rust; a bloom of wax or a whitened film changed, but not towards red.
 *
 * Units    sRGB bytes in; a mark per pixel out
 * Source   our own rule; its limits were chosen on rendered pairs
 * Status   common practice
 */
import { boxMean } from "./box-mean.ts";
import { labImage, linearLight } from "./lab-image.ts";
import { marks, type RgbImage, requireSameSize } from "./raster.ts";
import { type FoundRust, marksOf, rustByModel } from "./rust-by-model.ts";
import type { RustModel } from "./rust-model.ts";
import { srgbByteOf } from "./srgb-byte.ts";

const rule = {
  /** A change counts from this rise of redness on, CIELAB; between the two the model must be the surer. */
  leastRise: 2.5,
  fullRise: 7,
  /** Log odds that a clear rise adds, and that a missing one takes away. */
  addsLogOdds: 1.5,
  takesLogOdds: 8,
  /** Two pictures never lie on each other to the pixel: the reddest first place this near is compared, px. */
  reachPx: 2,
} as const;

/**
 * Marks rust (per px, same size) that is on `now` and was not yet on `first`. Refuses pictures of different size.
 * The light of the two may differ as a whole: it is evened out by the places that the model calls unrusted on both.
 */
export function rustSince(first: RgbImage, now: RgbImage, pxPerMm: number | null, model: RustModel): FoundRust {
  requireSameSize("now", now, first);
  const [before, after] = [rustByModel(first, null, pxPerMm, model), rustByModel(now, null, pxPerMm, model)];
  const gains = lightGains(first, now, before, after, model);
  const rise = rednessRise(relit(first, gains), now);
  const logOdds = new Float32Array(rise.length);
  for (let at = 0; at < rise.length; at++) {
    // What is no rust now did not come either: a rise beside a spot is its rim, cut back from the percentage.
    const share =
      after.marks[at] === marks.rust
        ? Math.min(1, Math.max(0, (rise[at]! - rule.leastRise) / (rule.fullRise - rule.leastRise)))
        : 0;
    logOdds[at] = after.logOdds[at]! - rule.takesLogOdds + share * (rule.takesLogOdds + rule.addsLogOdds);
  }
  return { widthPx: now.widthPx, heightPx: now.heightPx, marks: marksOf(logOdds, now.widthPx, model), logOdds };
}

type Gains = readonly [number, number, number];

/** Light of `now` over light of `first`, per channel: the median over places without rust on both. */
function lightGains(first: RgbImage, now: RgbImage, before: FoundRust, after: FoundRust, model: RustModel): Gains {
  const clean: number[] = [];
  // Every 13th pixel: thousands are plenty, and a prime step does not run along a column.
  for (let at = 0; at < before.logOdds.length; at += 13)
    if (before.logOdds[at]! < model.rustFromLogOdds && after.logOdds[at]! < model.rustFromLogOdds) clean.push(at);
  // Rusted nearly all over: what is left says too little about the light, and against so much rust it matters little.
  if (clean.length < before.logOdds.length / 13 / 20) return [1, 1, 1];
  return [0, 1, 2].map((channel) => {
    const ratios = Float64Array.from(
      clean,
      (at) => (linearLight[now.rgb[at * 3 + channel]!]! + 0.002) / (linearLight[first.rgb[at * 3 + channel]!]! + 0.002),
    ).sort();
    return ratios[ratios.length >> 1]!;
  }) as unknown as Gains;
}

function relit(image: RgbImage, gains: Gains): RgbImage {
  const tables = gains.map((gain) => Uint8Array.from(linearLight, (light) => Math.round(srgbByteOf(light * gain))));
  const rgb = new Uint8Array(image.rgb.length);
  for (let at = 0; at < rgb.length; at += 3)
    for (let channel = 0; channel < 3; channel++) rgb[at + channel] = tables[channel]![image.rgb[at + channel]!]!;
  return { ...image, rgb };
}

/** How much redder and yellower, together, each place became against the warmest place near it before. */
function rednessRise(first: RgbImage, now: RgbImage): Float32Array {
  const { widthPx, heightPx } = now;
  const before = highestAround(warmth(first), widthPx, heightPx, rule.reachPx);
  return warmth(now).map((value, at) => value - before[at]!);
}

/** Red counts in full and yellow by half: run-off and old oil are yellow first. */
function warmth(image: RgbImage): Float32Array {
  const lab = labImage(image);
  const mixed = lab.a.map((a, at) => a + 0.5 * lab.b[at]!);
  return boxMean(mixed, image.widthPx, image.heightPx, 1);
}

function highestAround(plane: Float32Array, widthPx: number, heightPx: number, reachPx: number): Float32Array {
  const alongRows = new Float32Array(plane.length);
  const highest = new Float32Array(plane.length);
  for (let row = 0, at = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++, at++) {
      let top = plane[at]!;
      for (let x = Math.max(0, column - reachPx); x <= Math.min(widthPx - 1, column + reachPx); x++)
        top = Math.max(top, plane[row * widthPx + x]!);
      alongRows[at] = top;
    }
  for (let row = 0, at = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++, at++) {
      let top = alongRows[at]!;
      for (let y = Math.max(0, row - reachPx); y <= Math.min(heightPx - 1, row + reachPx); y++)
        top = Math.max(top, alongRows[y * widthPx + column]!);
      highest[at] = top;
    }
  return highest;
}
