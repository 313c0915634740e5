/** Chance that two groups of this size show a difference of this size. */
import { InputError, requireFinite, requireFraction, requireWhole } from "../input-error.ts";
import { tTestPower, twoSampleDesign } from "./t-test-power.ts";

/**
 * Power of the two-sided two-sample t test.
 *
 * Method   power.tTwoSample
 * Formula  P(|T| > t(1 - alpha/2)), T noncentral t with n1 + n2 - 2 df and ncp = d √(n1 n2 / (n1 + n2)); both tails counted
 * Units    sizes in coupons treated separately; differenceInSd in SD of one coupon; shares
 * Source   noncentral t distribution
 * Status   computed
 * Holds    for even scatter; one coupon in a group works as long as there is one df
 * Refuses  an empty group, one coupon each, a difference that is not finite, an alpha not between 0 and 1
 */
export function powerTTwoSample(plan: { n1: number; n2: number; differenceInSd: number; alpha: number }) {
  requireWhole("n1", plan.n1, 1);
  requireWhole("n2", plan.n2, 1);
  requireFinite("differenceInSd", plan.differenceInSd);
  requireFraction("alpha", plan.alpha);
  if (plan.n1 + plan.n2 < 3) throw new InputError("n1", plan.n1, "two coupons in at least one of the groups");
  return { power: tTestPower(twoSampleDesign(plan.n1, plan.n2), plan) };
}
