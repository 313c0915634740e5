/**
 * What a t test can find: the noncentral t behind every power and size here.
 *
 * Units    differences in standard deviations; probabilities
 * Source   noncentral t distribution, both tails counted
 * Status   computed
 */
import { InputError, requireFraction } from "../input-error.ts";
import { brentRoot } from "../numeric/brent.ts";
import { noncentralTCdf, noncentralTSf } from "../numeric/noncentral-t-distribution.ts";
import { tQuantile } from "../numeric/t-distribution.ts";

/** `units`: what the difference in SD is multiplied with, √(n1 n2 / (n1 + n2)) or √n. */
export type TDesign = { df: number; units: number };

/** Two groups of n1 and n2 coupons with a pooled variance. */
export function twoSampleDesign(n1: number, n2: number): TDesign {
  return { df: n1 + n2 - 2, units: Math.sqrt((n1 * n2) / (n1 + n2)) };
}

/** One group of n coupons against a fixed value, or n paired differences. */
export function oneSampleDesign(n: number): TDesign {
  return { df: n - 1, units: Math.sqrt(n) };
}

/** Chance that the two-sided t test at `alpha` finds a true difference; both tails counted, so alpha itself when there is none. */
export function tTestPower(
  { df, units }: TDesign,
  { differenceInSd, alpha }: { differenceInSd: number; alpha: number },
) {
  const critical = tQuantile(alpha / 2, df, "upper");
  const ncp = differenceInSd * units;
  return noncentralTSf(critical, { df, ncp }) + noncentralTCdf(-critical, { df, ncp });
}

/** Difference in SD that is found with the given power. */
export function detectable(design: TDesign, { alpha, power }: { alpha: number; power: number }): number {
  const excess = (differenceInSd: number) => tTestPower(design, { differenceInSd, alpha }) - power;
  let far = 1 / design.units;
  while (excess(far) < 0) far *= 2;
  return brentRoot(excess, 0, far, 1e-11);
}

/** A power can only be asked for above alpha: without any difference the test finds one with the chance alpha. */
export function requirePower({ alpha, power }: { alpha: number; power: number }): void {
  requireFraction("alpha", alpha);
  requireFraction("power", power);
  if (power <= alpha) throw new InputError("power", power, `a power above alpha, ${alpha}`);
}
