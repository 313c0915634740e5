/**
 * Rust, per pixel, by a small learned network: how likely a pixel is rust, from its colour, its picture and its surroundings.
 *
 * Two hidden layers of rectified units on the features of `rust-features.ts`. What is the same for a whole cell of the
 * picture, or for all of it, is summed once and not once per pixel.
 *
 * Units    sRGB bytes in; probability 0 to 1 out
 * Source   our own, learned by bench/rust-model/learn.ts on open photographs and rendered coupons
 * Status   computed
 */
import { InputError } from "../input-error.ts";
import type { RgbImage } from "./raster.ts";
import {
  cellFeatures,
  cellPx,
  type OwnSurface,
  pixelFeatures,
  type RustFeatures,
  rustFeatures,
} from "./rust-features.ts";

/** The inputs of the network in their order: the pixel, the pixel against the picture, the pixel's surroundings. */
export const ownFeatures = ["by spread", "by brightest", "lightness", "a", "b", "chroma"] as const;
const firstOwn = pixelFeatures.length;
const firstCell = firstOwn + ownFeatures.length;
export const inputCount = firstCell + cellFeatures.length;

export type RustModel = {
  /** Stands in every measurement made with it; it changes whenever an answer can change. */
  name: string;
  /** Rows of the first layer: bias, then one weight per input. */
  first: readonly (readonly number[])[];
  /** Rows of the second layer: bias, then one weight per unit of the first. */
  second: readonly (readonly number[])[];
  /** Bias, then one weight per unit of the second layer: log odds of rust. */
  last: readonly number[];
  /** A pixel is rust from this log odds on; chosen for area on photographs left out of the learning. */
  rustFromLogOdds: number;
  /** Whether the colour rule's word is added on coupons; strokes of a shop are not to be talked over by it. */
  heedsColourRule: boolean;
  /** On nine of ten photographs left out of the learning, the limit with the outlined area lay within these of the one used. */
  limitReach: { up: number; down: number };
};

/** The network's inputs at one pixel, written into `to`; units of CIELAB. The tools that learn a model read them here, too. */
export function inputsAt(features: RustFeatures, row: number, column: number, to: Float32Array): void {
  const at = row * features.widthPx + column;
  const [lightness, a, b] = [features.lightness[at]!, features.a[at]!, features.b[at]!];
  const { own } = features;
  const chroma = Math.sqrt(a * a + b * b);
  to.set([
    lightness,
    a,
    b,
    chroma,
    a / (8 + chroma),
    b / (8 + chroma),
    a / (12 + lightness),
    b / (12 + lightness),
    features.byColour[at]!,
    (lightness - own.medianLightness) / own.spreadLightness,
    lightness / (5 + own.brightLightness),
    lightness - own.medianLightness,
    a - own.medianA,
    b - own.medianB,
    chroma - own.greyChroma,
  ]);
  const cell = (Math.floor(row / cellPx) * features.cellColumns + Math.floor(column / cellPx)) * cellFeatures.length;
  for (let i = 0; i < cellFeatures.length; i++) to[firstCell + i] = features.cells[cell + i]!;
}

/** Log odds of rust for every pixel. `counted` (not 0 = counted) says which part is the surface in question; null: all of it. */
export function rustLogOdds(
  image: RgbImage,
  counted: Uint8Array | null,
  pxPerMm: number | null,
  model: RustModel,
): Float32Array {
  requireModel(model);
  return logOddsOf(rustFeatures(image, counted, pxPerMm), model);
}

/** Further from the limit than this, a place between two looked at is taken for what they are. */
const sureLogOdds = 2.5;

/**
 * Log odds of rust from features that are already at hand; no unit. Every second pixel of every second row is looked at, and the
 * rest where those around it are near the limit or disagree: on most of a picture nothing is in doubt.
 */
export function logOddsOf(features: RustFeatures, model: RustModel): Float32Array {
  const { widthPx, heightPx, byColour } = features;
  const logOdds = new Float32Array(widthPx * heightPx);
  const oddsAt = networkOver(features, model);
  for (let row = 0; row < heightPx; row += 2)
    for (let column = 0; column < widthPx; column += 2) logOdds[row * widthPx + column] = oddsAt(row, column);
  const low = model.rustFromLogOdds - sureLogOdds;
  const high = model.rustFromLogOdds + sureLogOdds;
  for (let row = 0; row < heightPx; row += 2) {
    const down = row + 2 < heightPx ? 2 * widthPx : 0;
    for (let column = 0; column < widthPx; column += 2) {
      const at = row * widthPx + column;
      const right = column + 2 < widthPx ? 2 : 0;
      const [a, b, c, d] = [logOdds[at]!, logOdds[at + right]!, logOdds[at + down]!, logOdds[at + down + right]!];
      const sure = Math.max(a, b, c, d) < low || Math.min(a, b, c, d) > high;
      for (let step = 1; step < 4; step++) {
        const [y, x] = [row + (step >> 1), column + (step & 1)];
        if (y >= heightPx || x >= widthPx) continue;
        const to = y * widthPx + x;
        logOdds[to] = sure && byColour[to] === byColour[at] ? (a + b + c + d) / 4 : oddsAt(y, x);
      }
    }
  }
  return logOdds;
}

/** The network at one pixel of these features. */
function networkOver(features: RustFeatures, model: RustModel): (row: number, column: number) => number {
  const { widthPx, cellColumns, byColour, lightness: levels, a: reds, b: yellows } = features;
  const units = model.first.length;
  const perPixel = pixelWeights(model, features.own);
  const byCell = cellSums(features, model);
  const secondUnits = model.second.length;
  const second = Float64Array.from(model.second.flat());
  const last = Float64Array.from(model.last);
  const hidden = new Float64Array(units);
  return (row, column) => {
    const at = row * widthPx + column;
    const lightness = levels[at]!;
    const a = reds[at]!;
    const b = yellows[at]!;
    const chroma = Math.sqrt(a * a + b * b);
    const byChroma = 1 / (8 + chroma);
    const byLightness = 1 / (12 + lightness);
    const cell = (Math.floor(row / cellPx) * cellColumns + Math.floor(column / cellPx)) * units;
    for (let unit = 0, w = 0; unit < units; unit++, w += firstOwn) {
      const sum =
        byCell[cell + unit]! +
        perPixel[w]! * lightness +
        perPixel[w + 1]! * a +
        perPixel[w + 2]! * b +
        perPixel[w + 3]! * chroma +
        byChroma * (perPixel[w + 4]! * a + perPixel[w + 5]! * b) +
        byLightness * (perPixel[w + 6]! * a + perPixel[w + 7]! * b) +
        perPixel[w + 8]! * byColour[at]!;
      hidden[unit] = Math.max(sum, 0);
    }
    let odds = last[0]!;
    for (let unit = 0, w = 0; unit < secondUnits; unit++) {
      let sum = second[w++]!;
      for (let from = 0; from < units; from++) sum += second[w++]! * hidden[from]!;
      if (sum > 0) odds += last[unit + 1]! * sum;
    }
    return odds;
  };
}

/** One weight per pixel feature and unit: those of the pixel, with what the picture's own surface makes of them. */
function pixelWeights(model: RustModel, own: OwnSurface): Float64Array {
  const weights = new Float64Array(model.first.length * firstOwn);
  for (const [unit, row] of model.first.entries()) {
    const at = unit * firstOwn;
    for (let i = 0; i < firstOwn; i++) weights[at + i] = row[1 + i]!;
    const ofOwn = row.slice(1 + firstOwn, 1 + firstCell);
    weights[at]! += ofOwn[0]! / own.spreadLightness + ofOwn[1]! / (5 + own.brightLightness) + ofOwn[2]!;
    weights[at + 1]! += ofOwn[3]!;
    weights[at + 2]! += ofOwn[4]!;
    weights[at + 3]! += ofOwn[5]!;
  }
  return weights;
}

/** Per cell and unit: bias, what is the same all over the picture, and the surroundings. */
function cellSums(features: RustFeatures, model: RustModel): Float64Array {
  const { own, cells } = features;
  const units = model.first.length;
  const count = cellFeatures.length;
  const sums = new Float64Array((cells.length / count) * units);
  for (const [unit, row] of model.first.entries()) {
    const o = 1 + firstOwn;
    const bias =
      row[0]! -
      row[o]! * (own.medianLightness / own.spreadLightness) -
      row[o + 2]! * own.medianLightness -
      row[o + 3]! * own.medianA -
      row[o + 4]! * own.medianB -
      row[o + 5]! * own.greyChroma;
    const weights = row.slice(1 + firstCell);
    for (let cell = 0, at = unit; cell < cells.length; cell += count, at += units) {
      let sum = bias;
      for (let i = 0; i < count; i++) sum += weights[i]! * cells[cell + i]!;
      sums[at] = sum;
    }
  }
  return sums;
}

function requireModel(model: RustModel): void {
  const wrong =
    model.first.some((row) => row.length !== inputCount + 1) ||
    model.second.some((row) => row.length !== model.first.length + 1) ||
    model.last.length !== model.second.length + 1;
  if (wrong) throw new InputError("model", model.name, `layers that fit ${inputCount} inputs and each other`);
}

/** The rectified units of the first layer at one pixel, and its log odds of rust; no unit. What a model is adapted on. */
export function firstUnitsAt(
  features: RustFeatures,
  row: number,
  column: number,
  model: RustModel,
): { units: Float64Array; logOdds: number } {
  const inputs = new Float32Array(inputCount);
  inputsAt(features, row, column, inputs);
  const rectified = (weights: readonly number[], from: ArrayLike<number>) => {
    let sum = weights[0]!;
    for (let i = 1; i < weights.length; i++) sum += weights[i]! * from[i - 1]!;
    return Math.max(0, sum);
  };
  const units = Float64Array.from(model.first, (weights) => rectified(weights, inputs));
  const second = model.second.map((weights) => rectified(weights, units));
  const logOdds = second.reduce((sum, unit, at) => sum + model.last[at + 1]! * unit, model.last[0]!);
  return { units, logOdds };
}
