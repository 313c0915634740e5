/** Chance that so many pairs show a difference of this size. */
import { requireFinite, requireFraction, requireWhole } from "../input-error.ts";
import { oneSampleDesign, tTestPower } from "./t-test-power.ts";

/**
 * Power of the two-sided one-sample (paired) t test.
 *
 * Method   power.tOneSample
 * Formula  P(|T| > t(1 - alpha/2)), T noncentral t with n - 1 df and ncp = d √n; both tails counted
 * Units    n in pairs; differenceInSd in SD of one difference; shares
 * Source   noncentral t distribution
 * Status   computed
 * Holds    for differences scattered about evenly
 * Refuses  fewer than two, a difference that is not finite, an alpha not between 0 and 1
 */
export function powerTOneSample(plan: { n: number; differenceInSd: number; alpha: number }) {
  requireWhole("n", plan.n, 2);
  requireFinite("differenceInSd", plan.differenceInSd);
  requireFraction("alpha", plan.alpha);
  return { power: tTestPower(oneSampleDesign(plan.n), plan) };
}
