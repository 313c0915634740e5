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
export const sureLogOdds = 2.5;

/** What the network says of clean steel; given to cells that are passed over. */
const noneLogOdds = -4;

/**
 * Log odds of rust from features that are already at hand; no unit. Every second pixel of every second row is looked at, and the
 * rest where those around it are near the limit or disagree: on most of a picture nothing is in doubt. Cells that the features pass over are not looked at.
 */
export function logOddsOf(features: RustFeatures, model: RustModel): Float32Array {
  const { widthPx, heightPx, byColour, passedOver } = features;
  const logOdds = new Float32Array(widthPx * heightPx).fill(noneLogOdds);
  const places = new Uint32Array(2 * widthPx);
  const network = networkOver(features, model);
  // One array for both kinds of question: the loops below take arrays and numbers, never objects.
  const raster = Uint32Array.of(widthPx, heightPx, features.cellColumns);
  const limits = Float64Array.of(model.rustFromLogOdds - sureLogOdds, model.rustFromLogOdds + sureLogOdds);
  for (let row = 0; row < heightPx; row += 2) network(places, everySecond(row, raster, passedOver, places), logOdds);
  for (let row = 0; row < heightPx; row += 2)
    network(places, filledBetween(row, raster, limits, byColour, passedOver, logOdds, places), logOdds);
  return logOdds;
}

/** Puts every second pixel of a row into `places`, less what is passed over, and counts them. */
function everySecond(row: number, raster: Uint32Array, passedOver: Uint8Array, places: Uint32Array): number {
  const widthPx = raster[0]!;
  const cells = (row >> 2) * raster[2]!;
  let count = 0;
  for (let column = 0; column < widthPx; column += 2)
    if (passedOver[cells + (column >> 2)] === 0) places[count++] = row * widthPx + column;
  return count;
}

/** Fills what lies between pixels that agree, in this row and the next; puts the pixels still to be looked at into `places` and counts them. */
function filledBetween(
  row: number,
  raster: Uint32Array,
  limits: Float64Array,
  byColour: Uint8Array,
  passedOver: Uint8Array,
  logOdds: Float32Array,
  places: Uint32Array,
): number {
  const widthPx = raster[0]!;
  const heightPx = raster[1]!;
  const low = limits[0]!;
  const high = limits[1]!;
  const down = row + 2 < heightPx ? 2 * widthPx : 0;
  const cells = (row >> 2) * raster[2]!;
  let count = 0;
  for (let column = 0; column < widthPx; column += 2) {
    if (passedOver[cells + (column >> 2)] !== 0) continue;
    const at = row * widthPx + column;
    const right = column + 2 < widthPx ? 2 : 0;
    const a = logOdds[at]!;
    const b = logOdds[at + right]!;
    const c = logOdds[at + down]!;
    const d = logOdds[at + down + right]!;
    const sure = (a < low && b < low && c < low && d < low) || (a > high && b > high && c > high && d > high);
    for (let step = 1; step < 4; step++) {
      const y = row + (step >> 1);
      const x = column + (step & 1);
      if (y >= heightPx || x >= widthPx) continue;
      const to = y * widthPx + x;
      if (sure && byColour[to] === byColour[at]) logOdds[to] = (a + b + c + d) / 4;
      else places[count++] = to;
    }
  }
  return count;
}

/** Units of the second layer that are summed side by side. */
const abreast = 8;

/** The network at the first `count` of these pixels, into `to`. Written out and without objects: it is most of the work of a measurement. */
function networkOver(
  features: RustFeatures,
  model: RustModel,
): (places: Uint32Array, count: number, to: Float32Array) => void {
  const { widthPx, cellColumns, byColour, lightness: levels, a: reds, b: yellows } = features;
  const units = model.first.length;
  const perPixel = pixelWeights(model, features.own);
  const byCell = cellSums(features, model);
  const { bias, second, last, groups } = secondLayer(model);
  const hidden = new Float64Array(units);
  return (places, count, to) => {
    for (let place = 0; place < count; place++) {
      const at = places[place]!;
      const row = Math.floor(at / widthPx);
      const cell = ((row >> 2) * cellColumns + ((at - row * widthPx) >> 2)) * units;
      const lightness = levels[at]!;
      const a = reds[at]!;
      const b = yellows[at]!;
      const word = byColour[at]!;
      const chroma = Math.sqrt(a * a + b * b);
      const redness = a / (8 + chroma);
      const yellowness = b / (8 + chroma);
      const aByLightness = a / (12 + lightness);
      const bByLightness = b / (12 + lightness);
      for (let unit = 0, w = 0; unit < units; unit++, w += firstOwn) {
        const sum =
          byCell[cell + unit]! +
          perPixel[w]! * lightness +
          perPixel[w + 1]! * a +
          (perPixel[w + 2]! * b + perPixel[w + 3]! * chroma) +
          (perPixel[w + 4]! * redness + perPixel[w + 5]! * yellowness) +
          (perPixel[w + 6]! * aByLightness + perPixel[w + 7]! * bByLightness) +
          perPixel[w + 8]! * word;
        hidden[unit] = Math.max(sum, 0);
      }
      let odds = last[groups * abreast]!;
      for (let group = 0, w = 0; group < groups; group++) {
        const g = group * abreast;
        let s0 = bias[g]!;
        let s1 = bias[g + 1]!;
        let s2 = bias[g + 2]!;
        let s3 = bias[g + 3]!;
        let s4 = bias[g + 4]!;
        let s5 = bias[g + 5]!;
        let s6 = bias[g + 6]!;
        let s7 = bias[g + 7]!;
        for (let unit = 0; unit < units; unit++, w += abreast) {
          const value = hidden[unit]!;
          if (value === 0) continue;
          s0 += second[w]! * value;
          s1 += second[w + 1]! * value;
          s2 += second[w + 2]! * value;
          s3 += second[w + 3]! * value;
          s4 += second[w + 4]! * value;
          s5 += second[w + 5]! * value;
          s6 += second[w + 6]! * value;
          s7 += second[w + 7]! * value;
        }
        if (s0 > 0) odds += last[g]! * s0;
        if (s1 > 0) odds += last[g + 1]! * s1;
        if (s2 > 0) odds += last[g + 2]! * s2;
        if (s3 > 0) odds += last[g + 3]! * s3;
        if (s4 > 0) odds += last[g + 4]! * s4;
        if (s5 > 0) odds += last[g + 5]! * s5;
        if (s6 > 0) odds += last[g + 6]! * s6;
        if (s7 > 0) odds += last[g + 7]! * s7;
      }
      to[at] = odds;
    }
  };
}

/** The second layer by groups of units that are summed side by side, what is missing in the last group as nought; `last` ends with its bias. */
function secondLayer(model: RustModel) {
  const units = model.first.length;
  const groups = Math.ceil(model.second.length / abreast);
  const bias = new Float64Array(groups * abreast);
  const second = new Float64Array(groups * abreast * units);
  const last = new Float64Array(groups * abreast + 1);
  for (const [at, row] of model.second.entries()) {
    bias[at] = row[0]!;
    last[at] = model.last[at + 1]!;
    for (let unit = 0; unit < units; unit++)
      second[(Math.floor(at / abreast) * units + unit) * abreast + (at % abreast)] = row[unit + 1]!;
  }
  last[groups * abreast] = model.last[0]!;
  return { bias, second, last, groups };
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

/** Per cell and unit: bias, what is the same all over the picture, and the surroundings; none for cells that are passed over. */
function cellSums({ own, cells, passedOver }: RustFeatures, model: RustModel): Float64Array {
  const units = model.first.length;
  const count = cellFeatures.length;
  const sums = new Float64Array(passedOver.length * units);
  const bias = Float64Array.from(model.first, (row) => {
    const o = 1 + firstOwn;
    return (
      row[0]! -
      row[o]! * (own.medianLightness / own.spreadLightness) -
      row[o + 2]! * own.medianLightness -
      row[o + 3]! * own.medianA -
      row[o + 4]! * own.medianB -
      row[o + 5]! * own.greyChroma
    );
  });
  const weights = Float64Array.from(model.first.flatMap((row) => row.slice(1 + firstCell)));
  for (let cell = 0; cell < passedOver.length; cell++)
    if (passedOver[cell] === 0) weigh(cells, cell * count, (cell + 1) * count, weights, bias, sums, cell * units);
  return sums;
}

/** One sum per bias, into `sums` from `to` on, of the inputs from `from` on. They are of even number. */
function weigh(
  inputs: Float32Array,
  from: number,
  past: number,
  weights: Float64Array,
  bias: Float64Array,
  sums: Float64Array,
  to: number,
): void {
  for (let unit = 0, w = 0; unit < bias.length; unit++) {
    let sum = bias[unit]!;
    let other = 0;
    for (let i = from; i < past; i += 2, w += 2) {
      sum += weights[w]! * inputs[i]!;
      other += weights[w + 1]! * inputs[i + 1]!;
    }
    sums[to + unit] = sum + other;
  }
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
