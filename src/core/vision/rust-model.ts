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
import { addressOf, inRoom, kept, lentFloats, pixelLoops } from "./pixel-loops.ts";
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
  /** Stands in every measurement made with it; it changes whenever an answer can change by more than rounding. */
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
  return kept(() => logOddsOf(rustFeatures(image, counted, pxPerMm), model));
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
  const { widthPx, heightPx, passedOver } = features;
  return kept(() => {
    const logOdds = lentFloats(widthPx * heightPx).fill(noneLogOdds);
    inRoom(() => {
      const { oddsOfPicture, sumCells } = pixelLoops();
      const units = takeLayers(features, model);
      const cold = addressOf(passedOver);
      const sums = lentFloats(passedOver.length * units).byteOffset;
      sumCells(addressOf(features.cells), cold, passedOver.length, sums);
      const [lightness, a, b] = [features.lightness, features.a, features.b].map(addressOf) as [number, number, number];
      const words = addressOf(features.byColour);
      const low = model.rustFromLogOdds - sureLogOdds;
      const high = model.rustFromLogOdds + sureLogOdds;
      oddsOfPicture(lightness, a, b, words, sums, cold, widthPx, heightPx, low, high, logOdds.byteOffset);
    });
    return logOdds;
  });
}

/** Units are summed four at a time; what is missing in the last four weighs nothing. */
const abreast = 4;
const inFours = (count: number) => Math.ceil(count / abreast) * abreast;

/** Hands the layers over by input, then by unit, with what the picture's own surface makes of them. How many units of the first there are. */
function takeLayers({ own }: RustFeatures, model: RustModel): number {
  const units = inFours(model.first.length);
  const secondUnits = inFours(model.second.length);
  const second = lentFloats(secondUnits * (units + 1)).fill(0);
  for (const [at, row] of model.second.entries())
    for (const [input, weight] of row.entries()) second[input * secondUnits + at] = weight;
  const last = lentFloats(1 + secondUnits).fill(0);
  last.set(model.last);
  pixelLoops().takeModel(
    units,
    secondUnits,
    pixelWeights(model, own, units).byteOffset,
    cellWeights(model, own, units).byteOffset,
    second.byteOffset,
    last.byteOffset,
    lentFloats(units).byteOffset,
  );
  return units;
}

/** One weight per pixel feature and unit: those of the pixel, with what the picture's own surface makes of them. */
function pixelWeights(model: RustModel, own: OwnSurface, units: number): Float32Array {
  const weights = lentFloats(units * firstOwn).fill(0);
  for (const [unit, row] of model.first.entries()) {
    const ofPixel = row.slice(1, 1 + firstOwn);
    const ofOwn = row.slice(1 + firstOwn, 1 + firstCell);
    ofPixel[0]! += ofOwn[0]! / own.spreadLightness + ofOwn[1]! / (5 + own.brightLightness) + ofOwn[2]!;
    ofPixel[1]! += ofOwn[3]!;
    ofPixel[2]! += ofOwn[4]!;
    ofPixel[3]! += ofOwn[5]!;
    for (const [input, weight] of ofPixel.entries()) weights[input * units + unit] = weight;
  }
  return weights;
}

/** Bias with what is the same all over the picture, then one weight per cell feature, by unit. */
function cellWeights(model: RustModel, own: OwnSurface, units: number): Float32Array {
  const weights = lentFloats(units * (1 + cellFeatures.length)).fill(0);
  for (const [unit, row] of model.first.entries()) {
    const o = 1 + firstOwn;
    weights[unit] =
      row[0]! -
      row[o]! * (own.medianLightness / own.spreadLightness) -
      row[o + 2]! * own.medianLightness -
      row[o + 3]! * own.medianA -
      row[o + 4]! * own.medianB -
      row[o + 5]! * own.greyChroma;
    for (const [input, weight] of row.slice(1 + firstCell).entries()) weights[(1 + input) * units + unit] = weight;
  }
  return weights;
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
