/**
 * The rust model fitted to a shop's own finish and light by a few strokes: this is rust, this is not.
 *
 * The strokes learn a straight correction of the log odds on the model's first units, held near none by a prior: each stroke
 * counts like a fixed number of pixels however long it is, since pixels of one stroke tell much the same. A finger is broader than most
 * spots: of a stroke on rust only the third teaches that looks most like rust; round a stain is no rust either, so a stroke on what is none
 * teaches whole. The most
 * probable correction is found by Newton's method. What comes back is a model like any other, under its own name.
 *
 * Units    sRGB bytes and mm on the rectified coupon in
 * Source   logistic regression with a normal prior; the prior's width and what of a stroke counts, and how much, are our own choice
 * Status   computed
 */
import { InputError } from "../input-error.ts";
import { solveLinear } from "../numeric/solve-linear.ts";
import { type Stroke, withStrokes } from "./brush.ts";
import type { SizeMm } from "./coupon-plane.ts";
import { marks, type RgbImage } from "./raster.ts";
import { modelLongestPx } from "./rust-by-model.ts";
import { rustFeatures } from "./rust-features.ts";
import { firstUnitsAt, type RustModel } from "./rust-model.ts";
import { shrunk } from "./shrink.ts";

/** A rectified photograph with what a finger marked on it. */
export type MarkedPhoto = { image: RgbImage; sizeMm: SizeMm; strokes: readonly Stroke[] };

/** A stroke weighs like this many pixels that know nothing of each other; at most so many of its pixels are read. */
const strokeWeight = 12;
const mostPixels = 400;
/** Of a stroke on rust; the rest may lie on the steel around a spot. */
const shareOfRust = 1 / 3;
/** Log odds weigh so many times: what the model tells rightly without being all but certain is let alone. */
const sharpness = 2;
/** Standard deviation of the prior of each correction, in log odds per usual size of its unit. */
const priorSpread = 1;

type Example = { units: Float64Array; logOdds: number; isRust: boolean; weight: number };

/** The model with its log odds corrected by the strokes, under `name`. Refuses strokes without both kinds; left-out strokes teach nothing. */
export function adaptedModel(model: RustModel, photos: readonly MarkedPhoto[], name: string): RustModel {
  const examples = photos.flatMap((photo) => examplesOf(model, photo));
  for (const isRust of [true, false])
    if (!examples.some((one) => one.isRust === isRust))
      throw new InputError(
        "photos",
        `no stroke on ${isRust ? "rust" : "what is not rust"}`,
        "at least one stroke of each kind",
      );
  const scale = usualSizes(examples, model.first.length);
  const correction = mostProbable(examples, scale, model.rustFromLogOdds);
  const weights = Array.from(scale, (size, unit) => correction[unit + 1]! / size);
  // A unit is never below 0, so a straight sum of units is one rectified unit less its mirror image.
  return {
    name,
    rustFromLogOdds: model.rustFromLogOdds,
    heedsColourRule: false,
    limitReach: model.limitReach,
    first: model.first,
    second: [...model.second, [0, ...weights], [0, ...weights.map((weight) => -weight)]],
    last: [model.last[0]! + correction[0]!, ...model.last.slice(1), 1, -1],
  };
}

function examplesOf(model: RustModel, { image, sizeMm, strokes }: MarkedPhoto): Example[] {
  const small = shrunk(image, modelLongestPx);
  const features = rustFeatures(small, null, small.widthPx / sizeMm.lengthMm);
  const blank = {
    widthPx: small.widthPx,
    heightPx: small.heightPx,
    marks: new Uint8Array(small.widthPx * small.heightPx).fill(marks.leftOut),
  };
  return strokes
    .filter(({ paint }) => paint !== "left out")
    .flatMap((stroke) => {
      const painted = withStrokes(blank, sizeMm, [stroke]).marks;
      const places = Array.from(painted.keys()).filter((at) => painted[at] !== marks.leftOut);
      const step = Math.max(1, Math.ceil(places.length / mostPixels));
      const taken = places.filter((_, at) => at % step === 0);
      const marked = taken.map((at) =>
        firstUnitsAt(features, Math.floor(at / small.widthPx), at % small.widthPx, model),
      );
      const isRust = stroke.paint === "rust";
      const taught = isRust ? mostLikeRust(marked) : marked;
      return taught.map((place) => ({ ...place, isRust, weight: strokeWeight / taught.length }));
    });
}

function mostLikeRust<Place extends { logOdds: number }>(places: readonly Place[]): Place[] {
  const falling = [...places].sort((one, other) => other.logOdds - one.logOdds);
  return falling.slice(0, Math.ceil(shareOfRust * falling.length));
}

function usualSizes(examples: readonly Example[], units: number): Float64Array {
  const total = examples.reduce((sum, { weight }) => sum + weight, 0);
  return Float64Array.from({ length: units }, (_, unit) => {
    const mean = examples.reduce((sum, one) => sum + (one.weight * one.units[unit]! ** 2) / total, 0);
    return Math.max(0.1, Math.sqrt(mean));
  });
}

/** Newton's method on the penalised logistic likelihood: bias first, then one correction per unit. */
function mostProbable(examples: readonly Example[], scale: Float64Array, rustFrom: number): Float64Array {
  const count = scale.length + 1;
  const found = new Float64Array(count);
  const x = new Float64Array(count);
  for (let round = 0; round < 30; round++) {
    const gradient = Float64Array.from(found, (value) => -value / priorSpread ** 2);
    const curvature = Array.from({ length: count }, (_, i) => {
      const row = Array<number>(count).fill(0);
      row[i] = 1 / priorSpread ** 2;
      return row;
    });
    for (const one of examples) {
      x[0] = 1;
      for (let unit = 1; unit < count; unit++) x[unit] = one.units[unit - 1]! / scale[unit - 1]!;
      const odds = x.reduce((sum, value, i) => sum + value * found[i]!, one.logOdds - rustFrom);
      const chance = 1 / (1 + Math.exp(-sharpness * odds));
      const pull = one.weight * ((one.isRust ? 1 : 0) - chance);
      const sharp = sharpness * one.weight * chance * (1 - chance);
      for (let i = 0; i < count; i++) {
        gradient[i]! += pull * x[i]!;
        for (let j = 0; j < count; j++) curvature[i]![j]! += sharp * x[i]! * x[j]!;
      }
    }
    const step = solveLinear(curvature, Array.from(gradient));
    const length = Math.hypot(...step);
    // A long step overshoots where the chances are all but certain.
    const share = Math.min(1, 3 / length);
    for (let i = 0; i < count; i++) found[i]! += share * step[i]!;
    if (length < 1e-9) break;
  }
  return found;
}
