/** How many coupons per group show a difference of this size? */
import { InputError, requireFinite } from "../input-error.ts";
import { requirePower, tTestPower, twoSampleDesign } from "./t-test-power.ts";

const largestGroup = 1_000_000;

/**
 * Smallest equal groups for the two-sided two-sample t test.
 *
 * Method   power.sampleSizeT
 * Formula  the smallest n of 2 or more with power of the t test (noncentral t, 2n - 2 df, ncp = d √(n/2)) at least the one asked for
 * Units    nPerGroup in coupons treated separately; differenceInSd in SD of one coupon; shares
 * Source   noncentral t distribution
 * Status   computed
 * Holds    for even scatter and equal groups
 * Refuses  no difference, one so small that a million per group do not show it, a power not above alpha
 */
export function sampleSizeT(plan: { differenceInSd: number; alpha: number; power: number }) {
  requireFinite("differenceInSd", plan.differenceInSd);
  requirePower(plan);
  const powerOf = (n: number) => tTestPower(twoSampleDesign(n, n), plan);
  const enough = (n: number) => powerOf(n) >= plan.power;
  if (plan.differenceInSd === 0 || !enough(largestGroup))
    throw new InputError("differenceInSd", plan.differenceInSd, `a difference that ${largestGroup} per group can show`);
  // `few` is known to be too few, `many` to be enough.
  let [few, many] = [1, 2];
  while (!enough(many)) [few, many] = [many, 2 * many];
  while (many - few > 1) {
    const middle = Math.floor((few + many) / 2);
    if (enough(middle)) many = middle;
    else few = middle;
  }
  return { nPerGroup: many, achievedPower: powerOf(many) };
}
