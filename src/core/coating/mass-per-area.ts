/** Coating mass per area by stripping, ISO 3892. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";

/**
 * Coating mass per area by stripping.
 *
 * Method   coating.massPerArea
 * Formula  m = (before - after) / A
 * Units    g and cm² in, g/m² out (1 m² = 10 000 cm²)
 * Source   ISO 3892, difference weighing
 * Status   published
 * Holds    when the stripping bath leaves the steel alone: send a bare coupon through it first. Not on oiled or waxed coatings.
 * Refuses  a mass that rose on stripping; an area of 0 or less
 */
export function coatingMassPerArea(coupon: { massBeforeG: number; massAfterG: number; areaCm2: number }): number {
  requireNotNegative("massBeforeG", coupon.massBeforeG);
  requireNotNegative("massAfterG", coupon.massAfterG);
  requirePositive("areaCm2", coupon.areaCm2);
  if (coupon.massAfterG > coupon.massBeforeG)
    throw new InputError("massAfterG", coupon.massAfterG, `at most the mass before, ${coupon.massBeforeG} g`);
  return ((coupon.massBeforeG - coupon.massAfterG) * 10_000) / coupon.areaCm2;
}
