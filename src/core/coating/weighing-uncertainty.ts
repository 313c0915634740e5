/** What a balance can tell about a coating, and when it cannot. */
import { requirePositive, requireWhole } from "../input-error.ts";

/**
 * Standard uncertainty of a coating mass from two weighings.
 *
 * Method   coating.weighingUncertainty
 * Formula  u = 10 sqrt(2) b / A
 * Units    balance in mg (standard uncertainty of one weighing), cm² and g/m² in; g/m² and percent out
 * Source   root sum square of two weighings
 * Status   computed
 * Holds    for the balance alone: drying, oil left behind and the steel dissolved come on top
 * Refuses  a balance, area or mass of 0 or less
 */
export function weighingUncertainty(weighing: { balanceMg: number; areaCm2: number; coatingMassGM2: number }): {
  uncertaintyGM2: number;
  uncertaintyPercent: number;
} {
  requirePositive("coatingMassGM2", weighing.coatingMassGM2);
  const uncertaintyGM2 = differenceUncertaintyGM2(weighing);
  return { uncertaintyGM2, uncertaintyPercent: (100 * uncertaintyGM2) / weighing.coatingMassGM2 };
}

/**
 * Standard uncertainty of the difference of two weighings, per area.
 *
 * Units    mg (standard uncertainty of one weighing) and cm² in, g/m² out
 * Source   root sum square of two weighings
 * Status   computed
 */
export function differenceUncertaintyGM2({ balanceMg, areaCm2 }: { balanceMg: number; areaCm2: number }): number {
  requirePositive("balanceMg", balanceMg);
  requirePositive("areaCm2", areaCm2);
  return (10 * Math.SQRT2 * balanceMg) / areaCm2;
}

/** A light and a good coat: a balance that cannot tell these two is of no use here. g/m² */
export const lightCoatGM2 = 5;
export const goodCoatGM2 = 15;

export type BalanceFitness = {
  /** Two coupons that differ by less are not told apart. */
  smallestDifferenceGM2: number;
  useful: boolean;
  /** Hung and weighed together as one, so many coupons of this size would do; 1 when one does. */
  couponsTogether: number;
};

/**
 * Whether a balance tells a light coat from a good one on coupons of this size, weighed singly or several together.
 *
 * Units    mg and cm² of one coupon in, g/m² out
 * Source   95 % limit of the difference of two masses, 1.96 sqrt(2) u; 5 and 15 g/m² as the light and the good coat
 * Status   common practice
 */
export function balanceFitness(weighing: { balanceMg: number; areaCm2: number; coupons: number }): BalanceFitness {
  requireWhole("coupons", weighing.coupons, 1);
  const areaCm2 = weighing.areaCm2 * weighing.coupons;
  const smallestDifferenceGM2 = 1.96 * Math.SQRT2 * differenceUncertaintyGM2({ ...weighing, areaCm2 });
  const room = goodCoatGM2 - lightCoatGM2;
  return {
    smallestDifferenceGM2,
    useful: smallestDifferenceGM2 <= room,
    couponsTogether: Math.max(1, Math.ceil((smallestDifferenceGM2 * weighing.coupons) / room)),
  };
}
