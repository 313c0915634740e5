/** Coating mass from what a coupon gained: the weighing that needs no stripper. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";
import { leastSteelFraction, steelFractionOf } from "./steel-dissolved.ts";

/**
 * Coating mass from the gain, with the steel that was dissolved put back.
 *
 * Method   coating.fromGain
 * Formula  gain = (after - before) / A; coating = gain / (1 - k)
 * Units    g and cm² in, g/m² out
 * Source   mass balance of the bath: the layer gained k g of steel from the coupon for each g of itself
 * Status   computed
 * Holds    dry and degreased before, dry and cool before any oil after; compares coupons of one bath and steel better than it measures
 * Refuses  a coupon that lost mass; an area of 0 or less; a fraction below 0, or of 1 and more
 */
export function coatingMassFromGain(coupon: {
  massBeforeG: number;
  massAfterG: number;
  areaCm2: number;
  steelFraction?: number;
}): { gainGM2: number; coatingMassGM2: number } {
  requireNotNegative("massBeforeG", coupon.massBeforeG);
  requireNotNegative("massAfterG", coupon.massAfterG);
  requirePositive("areaCm2", coupon.areaCm2);
  const fraction = steelFractionOf(coupon);
  if (coupon.massAfterG < coupon.massBeforeG)
    throw new InputError(
      "massAfterG",
      coupon.massAfterG,
      `at least the mass before, ${coupon.massBeforeG} g: of a coupon that lost mass the gain tells nothing`,
    );
  const gainGM2 = ((coupon.massAfterG - coupon.massBeforeG) * 10_000) / coupon.areaCm2;
  return { gainGM2, coatingMassGM2: gainGM2 / (1 - fraction) };
}

/** Steel dissolved per coating in a bath that pickles hard; from memory. */
const hardPicklingSteelFraction = 0.4;

/**
 * The band in which the coating mass lies when nobody knows how much steel the bath took.
 *
 * Units    g/m² in and out
 * Source   steel fractions from 0.230 (ideal reaction) to 0.40 (hard pickling, from memory)
 * Status   memory
 */
export function coatingMassBand(gainGM2: number): { atLeastGM2: number; atMostGM2: number } {
  requireNotNegative("gainGM2", gainGM2);
  return { atLeastGM2: gainGM2 / (1 - leastSteelFraction), atMostGM2: gainGM2 / (1 - hardPicklingSteelFraction) };
}
