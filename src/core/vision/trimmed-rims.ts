/**
 * Rust marked by the model, cut back to where a pixel holds at least as much rust as steel.
 *
 * The model looks at means around a pixel, so the steel just beside a spot passes for its rim and small spots come out too large. In
 * linear light a pixel that is part rust, part steel lies on the straight line between the two, at its share of rust. So each
 * pixel near the rim is laid on the line between the rust and the steel around it, and stays from half way on. Steel is only what the
 * model is sure of: between rust and rust that it half overlooks there is nothing to trim.
 *
 * Units    sRGB bytes and marks per px
 * Source   mixing of light by area; the reach is our own, tried on rendered coupons
 * Status   computed
 */
import { linearLight } from "./lab-image.ts";
import { marks, type RgbImage } from "./raster.ts";
import { sumsNearby } from "./sums-nearby.ts";

/** How far inside the marked rim may be steel, px. */
const rimPx = 2;
/** Rust and steel are the means over what lies this near, px; steel beside the rim is not free of rust yet. */
const reachPx = 4;

/**
 * Takes the mark from rim pixels (per px) that are more steel than rust; calls `trim` for each. `isSteel` says of a pixel that is not
 * marked whether it is surely none.
 */
export function trimRimsByLight(
  found: Uint8Array,
  image: RgbImage,
  { isSteel, trim }: { isSteel: (at: number) => boolean; trim: (at: number) => void },
): void {
  const { widthPx, heightPx, rgb } = image;
  const before = found.slice();
  const lightNear = sumsNearby({ widthPx, heightPx, reachPx }, 2 * perKind, (at, times, sums, to) => {
    const isRust = before[at] === marks.rust;
    if (!isRust && !isSteel(at)) return;
    const sum = isRust ? to : to + perKind;
    sums[sum]! += times;
    sums[sum + 1]! += times * linearLight[rgb[3 * at]!]!;
    sums[sum + 2]! += times * linearLight[rgb[3 * at + 1]!]!;
    sums[sum + 3]! += times * linearLight[rgb[3 * at + 2]!]!;
  });
  const columns = new Uint32Array(widthPx);
  for (let row = 0; row < heightPx; row++) {
    const rims = rimsOfRow(before, row, widthPx, heightPx, columns);
    for (let rim = 0; rim < rims; rim++) {
      const at = row * widthPx + columns[rim]!;
      if (isHalfRust(rgb, at, lightNear(row, columns[rim]!))) continue;
      found[at] = marks.notRust;
      trim(at);
    }
  }
}

/** Of rust, then of steel: how many pixels, and their light by channel. */
const perKind = 4;

/** Whether a pixel lies at least half way from the steel to the rust near it; so it does where there is no steel. */
function isHalfRust(rgb: Uint8Array, at: number, near: Float64Array): boolean {
  const rustPixels = near[0]!;
  const steelPixels = near[perKind]!;
  if (steelPixels === 0) return true;
  let along = 0;
  let whole = 0;
  for (let channel = 0; channel < 3; channel++) {
    const from = near[perKind + 1 + channel]! / steelPixels;
    const way = near[1 + channel]! / rustPixels - from;
    along += (linearLight[rgb[3 * at + channel]!]! - from) * way;
    whole += way * way;
  }
  return along >= 0.5 * whole;
}

/** Puts the columns of a row's rust that has anything else within reach of a rim into `columns` and counts them. */
function rimsOfRow(found: Uint8Array, row: number, widthPx: number, heightPx: number, columns: Uint32Array): number {
  const top = Math.max(0, row - rimPx) * widthPx;
  const bottom = Math.min(heightPx - 1, row + rimPx) * widthPx;
  let count = 0;
  // Each column within reach is looked at once; the last one that is not rust from top to bottom says where a rim is near.
  let looked = -1;
  let broken = -1 - rimPx;
  for (let column = 0, at = row * widthPx; column < widthPx; column++, at++) {
    if (found[at] !== marks.rust) continue;
    const last = Math.min(widthPx - 1, column + rimPx);
    for (looked = Math.max(looked + 1, column - rimPx); looked <= last; looked++)
      for (let near = top + looked; near <= bottom + looked; near += widthPx)
        if (found[near] !== marks.rust) broken = looked;
    looked = last;
    if (broken >= column - rimPx) columns[count++] = column;
  }
  return count;
}
