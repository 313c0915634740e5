/** How much steel a phosphate layer is made of. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";

/** Gram of steel dissolved per gram of coating: the ideal reaction, and the least there is. */
export const leastSteelFraction = 0.23;

/** Steel, g/cm³. */
const steelDensityGCm3 = 7.86;

/**
 * Steel that went into solution while a coating grew.
 *
 * Method   coating.steelDissolved
 * Formula  s = k m; depth = s / 7.86
 * Units    g/m² and cm² in; g/m², g and µm out
 * Source   ideal reaction of manganese phosphating, k = 0.230 at least; steel 7.86 g/cm³
 * Status   computed
 * Holds    as the least; a bath that pickles hard takes up to 0.40 (from memory)
 * Refuses  a negative mass; an area of 0 or less; a fraction below 0, or of 1 and more
 */
export function steelDissolved(coat: { coatingMassGM2: number; areaCm2: number; steelFraction?: number }): {
  steelGM2: number;
  steelG: number;
  steelUm: number;
} {
  requireNotNegative("coatingMassGM2", coat.coatingMassGM2);
  requirePositive("areaCm2", coat.areaCm2);
  const fraction = steelFractionOf(coat);
  const steelGM2 = fraction * coat.coatingMassGM2;
  return { steelGM2, steelG: (steelGM2 * coat.areaCm2) / 10_000, steelUm: steelGM2 / steelDensityGCm3 };
}

/**
 * The stated fraction, or the least.
 *
 * Units    g of steel per g of coating
 * Source   input rule of this project
 * Status   common practice
 */
export function steelFractionOf({ steelFraction = leastSteelFraction }: { steelFraction?: number }): number {
  if (!Number.isFinite(steelFraction) || steelFraction < 0 || steelFraction >= 1)
    throw new InputError("steelFraction", steelFraction, "a fraction from 0 to below 1");
  return steelFraction;
}
