/** What a plan can show before a minute is spent. */
import { InputError, requireFraction, requireWhole } from "../input-error.ts";
import { brentRoot } from "../numeric/brent.ts";
import { noncentralTCdf, noncentralTSf } from "../numeric/noncentral-t-distribution.ts";
import { tQuantile } from "../numeric/t-distribution.ts";

/**
 * Difference of two means, in standard deviations, that a trial of this size finds with the given power.
 *
 * Method   statistics.detectableDifference
 * Formula  the d with P(|T| > t) = power, T noncentral t with 2n - 2 degrees of freedom and d √(n/2), t = t(1 - alpha/2)
 * Units    nPerGroup in coupons treated separately; differenceInSd in SD of one coupon
 * Source   two-sided two-sample t test, equal groups, exact noncentral t
 * Status   computed
 * Holds    for equal groups and even scatter; percent areas and times as logarithms
 * Refuses  fewer than two per group; alpha or power not between 0 and 1; a power not above alpha
 */
export function detectableDifference(plan: { nPerGroup: number; alpha: number; power: number }): number {
  const { nPerGroup, alpha, power } = plan;
  requireWhole("nPerGroup", nPerGroup, 2);
  requireFraction("alpha", alpha);
  requireFraction("power", power);
  if (power <= alpha) throw new InputError("power", power, `a power above alpha, ${alpha}`);
  const df = 2 * nPerGroup - 2;
  const critical = tQuantile(alpha / 2, df, "upper");
  const excess = (ncp: number) => noncentralTSf(critical, { df, ncp }) + noncentralTCdf(-critical, { df, ncp }) - power;
  let far = critical + 1;
  while (excess(far) < 0) far *= 2;
  return brentRoot(excess, 0, far, 1e-10) / Math.sqrt(nPerGroup / 2);
}
