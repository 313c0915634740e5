/** How well a balance knows a coating mass. */
import { requirePositive } from "../input-error.ts";

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
  requirePositive("balanceMg", weighing.balanceMg);
  requirePositive("areaCm2", weighing.areaCm2);
  const uncertaintyGM2 = (10 * Math.SQRT2 * weighing.balanceMg) / weighing.areaCm2;
  return { uncertaintyGM2, uncertaintyPercent: (100 * uncertaintyGM2) / weighing.coatingMassGM2 };
}
