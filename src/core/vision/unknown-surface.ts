/**
 * Rust in a picture of unknown scale, which may show any surface: surer spots that reach further, and a second look where the surface is dull brown.
 *
 * A dull brown surface is rust nearly all over, or brown paint, or grey in warm light. Compared with itself, rust looks like paint; so it is
 * compared with a usual grey surface, too, and the mean of both log odds counts. Surfaces of strong colour are paint and stand as they are.
 *
 * Units    log odds in and out; a mark per pixel out
 * Source   our own; limits chosen on photographs left out of the learning, their colours altered, and parts of them without rust
 * Status   computed
 */
import type { OwnSurface, RustFeatures } from "./rust-features.ts";
import { logOddsOf, type RustModel } from "./rust-model.ts";
import { seededPlaces } from "./seeded-places.ts";

/** Against the model's own limit, log odds: where a spot ends, and how sure some place in it must be. */
const limits = { from: -0.5, seedFrom: 2.25 } as const;

/** Median a*b* chroma and a* of a dull brown surface, and the least share of it that the colour rule calls rust. */
const dullBrown = { chromaAbove: 8, mostChroma: 25, redAbove: 3, leastShare: 0.5 } as const;

/** A grey surface as photographs mostly show one, CIELAB. */
const usualSurface: OwnSurface = {
  medianLightness: 48,
  brightLightness: 65,
  spreadLightness: 12,
  medianA: 0,
  medianB: 2,
  greyChroma: 3,
};

/** Log odds of rust per pixel; no unit. `counted` (not 0 = counted) says which part is the surface in question; null: all of it. */
export function logOddsOnUnknownSurface(
  features: RustFeatures,
  counted: Uint8Array | null,
  model: RustModel,
): Float32Array {
  const logOdds = logOddsOf(features, model);
  if (!isDullBrown(features, counted)) return logOdds;
  const besideGrey = logOddsOf({ ...features, own: usualSurface }, model);
  for (let at = 0; at < logOdds.length; at++) logOdds[at] = (logOdds[at]! + besideGrey[at]!) / 2;
  return logOdds;
}

/**
 * Marks for rust (per px) of such log odds; a place of fewer than `leastPixels` px is none. A spot has its sure place on the counted surface
 * itself: what begins on the table or in a hole beside it only spills over.
 */
export function placesOnUnknownSurface(
  logOdds: Float32Array,
  counted: Uint8Array | null,
  widthPx: number,
  model: RustModel,
  leastPixels: number,
): Uint8Array {
  const limit = model.rustFromLogOdds;
  const onSurface = counted
    ? logOdds.map((odds, at) => (counted[at] === 0 ? Number.NEGATIVE_INFINITY : odds))
    : logOdds;
  return seededPlaces(onSurface, widthPx, {
    from: limit + limits.from,
    seedFrom: limit + limits.seedFrom,
    leastPixels,
  });
}

function isDullBrown({ own, byColour }: RustFeatures, counted: Uint8Array | null): boolean {
  const chroma = Math.hypot(own.medianA, own.medianB);
  if (chroma <= dullBrown.chromaAbove || chroma > dullBrown.mostChroma || own.medianA <= dullBrown.redAbove)
    return false;
  let [pixels, warm] = [0, 0];
  for (let at = 0; at < byColour.length; at++) {
    if (counted?.[at] === 0) continue;
    pixels++;
    warm += byColour[at]!;
  }
  return warm >= dullBrown.leastShare * pixels;
}
