/** "None rusted" is a bound, not a zero. */
import { requireFraction, requireWhole } from "../input-error.ts";

/**
 * Upper bound of a share of which no case was seen.
 *
 * Method   survival.zeroFailureBound
 * Formula  1 - (1 - confidence)^(1 / n)
 * Units    trials a count; confidence and upper fractions; one-sided
 * Source   Clopper and Pearson 1934, no events
 * Status   computed
 * Holds    for any n; the rule of three, 3 / n, is an approximation for large n (at 4 it says 0.75, the bound is 0.527)
 * Refuses  no trials, a count that is not whole, a confidence not between 0 and 1
 */
export function zeroFailureBound({ trials, confidence }: { trials: number; confidence: number }) {
  requireWhole("trials", trials, 1);
  requireFraction("confidence", confidence);
  return { upper: -Math.expm1(Math.log1p(-confidence) / trials) };
}
