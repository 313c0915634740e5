/** The smallest difference that a planned design can be counted on to show. */
import { InputError, requireOneOf, requireWhole } from "../input-error.ts";
import { detectable, oneSampleDesign, requirePower, twoSampleDesign } from "./t-test-power.ts";

type Plan = { alpha: number; power: number } & (
  | { design: "oneSample"; n: number }
  | { design: "twoSample"; n1: number; n2: number }
);

/**
 * Difference, in standard deviations, that a design finds with the given power.
 *
 * Method   comparison.minimalDetectable
 * Formula  the d with P(|T| > t(1 - alpha/2)) = power, T noncentral t; ncp = d √n (one sample, n - 1 df) or
 *          d √(n1 n2 / (n1 + n2)) (two samples, n1 + n2 - 2 df)
 * Units    sizes in coupons treated separately (one sample: pairs); differenceInSd in SD of one coupon (one pair's difference)
 * Source   noncentral t distribution
 * Status   computed
 * Holds    for even scatter; one against five has 4 df and works
 * Refuses  a design without degrees of freedom, a power not above alpha, a design that is not listed
 */
export function minimalDetectable(plan: Plan) {
  requireOneOf("design", plan.design, ["oneSample", "twoSample"]);
  requirePower(plan);
  if (plan.design === "oneSample") {
    requireWhole("n", plan.n, 2);
    return { differenceInSd: detectable(oneSampleDesign(plan.n), plan) };
  }
  requireWhole("n1", plan.n1, 1);
  requireWhole("n2", plan.n2, 1);
  if (plan.n1 + plan.n2 < 3) throw new InputError("n1", plan.n1, "two coupons in at least one of the groups");
  return { differenceInSd: detectable(twoSampleDesign(plan.n1, plan.n2), plan) };
}
