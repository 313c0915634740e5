/** Are the partners of a pair the same, near enough? */
import { mean, requireScatter, sumOfSquares, variance } from "./moments.ts";
import { type Margins, requireMargins, twoOneSided } from "./two-one-sided.ts";
import { requireValues } from "./value-list.ts";

/**
 * Equivalence of paired values by two one-sided t tests of their differences.
 *
 * Method   comparison.tostPaired
 * Formula  tLower = (d - marginLower) / se tested upward, tUpper = (d - marginUpper) / se tested downward; p the larger;
 *          d the mean difference, se = s / √n, n - 1 df; interval d ± t(1 - alpha) se
 * Units    of the differences; alpha and p shares
 * Source   Schuirmann 1987
 * Status   computed
 * Holds    when the margin was chosen before the data
 * Refuses  fewer than two differences, no scatter, margins not in order, an alpha not between 0 and 0.5
 */
export function tostPaired({ differences, ...margins }: { differences: number[] } & Margins) {
  requireValues("differences", differences, 2);
  requireMargins(margins);
  requireScatter("differences", sumOfSquares(differences), differences, "differences that scatter");
  const standardError = Math.sqrt(variance(differences) / differences.length);
  return twoOneSided({ difference: mean(differences), standardError, df: differences.length - 1 }, margins);
}
