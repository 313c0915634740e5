/** Pairs of coupons, or one coupon's two faces: yes or no. */
import { InputError, requireWhole } from "../input-error.ts";
import { binomialCdf, binomialPmf } from "../numeric/binomial-distribution.ts";

/**
 * Exact McNemar test on the pairs that differ.
 *
 * Method   proportion.mcnemarExact
 * Formula  p = twice the smaller binomial tail of b among b + c at 1/2, at most 1; midP takes half of the observed point
 * Units    b, c: numbers of pairs that differ one way and the other
 * Source   McNemar 1947, exact binomial form
 * Status   computed
 * Holds    for pairs; the pairs that agree do not count
 * Refuses  counts that are not whole; no pair that differs
 */
export function mcnemarExact({ b, c }: { b: number; c: number }): { p: number; midP: number } {
  requireWhole("b", b);
  requireWhole("c", c);
  if (b + c === 0) throw new InputError("b", b, "at least one pair that differs");
  const trials = { n: b + c, prob: 0.5 };
  const fewer = Math.min(b, c);
  const tail = binomialCdf(fewer, trials);
  return { p: Math.min(1, 2 * tail), midP: Math.min(1, 2 * tail - binomialPmf(fewer, trials)) };
}
