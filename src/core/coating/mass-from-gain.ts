/** Coating mass from what a coupon gained: the weighing that needs no stripper. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";
import { steelFractionOf } from "./steel-dissolved.ts";

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
