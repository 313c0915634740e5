/** The beta distribution. */
import { requirePositive } from "../input-error.ts";
import { answer, type DistributionQuestion, requireQuantileOf, type Tail } from "./distribution-question.ts";
import {
  betaLogit,
  betaLogLower,
  betaLogUpper,
  betaLower,
  betaUpper,
  pointAt,
  type UnitPoint,
} from "./incomplete-beta.ts";

/**
 * Probabilities, their logarithms and quantiles of the beta distribution.
 *
 * Method   distribution.beta
 * Formula  cdf = I(x; a, b), the regularized incomplete beta function
 * Units    x from 0 to 1; a, b above 0; p as a fraction
 * Source   definition; NIST DLMF 8.17
 * Status   computed
 * Holds    in both tails to about 12 digits
 * Refuses  a or b of 0 or less; p outside 0 to 1
 */
export function betaDistribution(question: DistributionQuestion & { a: number; b: number }): { value: number } {
  const { a, b } = question;
  requirePositive("a", a);
  requirePositive("b", b);
  return answer(question, {
    cdf: (x) => betaLower(inside(x), a, b),
    sf: (x) => betaUpper(inside(x), a, b),
    logCdf: (x) => betaLogLower(inside(x), a, b),
    logSf: (x) => betaLogUpper(inside(x), a, b),
    quantile: (p, tail) => betaQuantile(p, { a, b }, tail),
  });
}

/** Left of 0 nothing of the distribution lies, right of 1 all of it. */
function inside(x: number): UnitPoint {
  if (x <= 0) return { x: 0, complement: 1 };
  return x >= 1 ? { x: 1, complement: 0 } : { x, complement: 1 - x };
}

/** The x with P(X <= x) = p (tail "lower", the default) or P(X > x) = p ("upper"). */
export function betaQuantile(p: number, { a, b }: { a: number; b: number }, tail: Tail = "lower"): number {
  requirePositive("a", a);
  requirePositive("b", b);
  requireQuantileOf(p, tail, []);
  if (p === 0 || p === 1) return (p === 0) === (tail === "lower") ? 0 : 1;
  return pointAt(betaLogit(p, a, b, tail)).x;
}
