/** The chi-square distribution. */
import { requirePositive } from "../input-error.ts";
import { answer, type DistributionQuestion, requireQuantileOf, type Tail } from "./distribution-question.ts";
import { gammaLogLower, gammaLogUpper, gammaLower, gammaPoint, gammaUpper } from "./incomplete-gamma.ts";

/**
 * Probabilities, their logarithms and quantiles of chi-square.
 *
 * Method   distribution.chi2
 * Formula  cdf = P(df/2, x/2), the regularized incomplete gamma function
 * Units    x without unit; df above 0, need not be whole; p as a fraction
 * Source   definition; NIST DLMF 8.2
 * Status   computed
 * Holds    in both tails to about 12 digits
 * Refuses  df of 0 or less; the p whose quantile is not finite
 */
export function chi2Distribution(question: DistributionQuestion & { df: number }): { value: number } {
  const { df } = question;
  requirePositive("df", df);
  return answer(question, {
    cdf: (x) => chi2Cdf(x, df),
    sf: (x) => chi2Sf(x, df),
    logCdf: (x) => chi2LogCdf(x, df),
    logSf: (x) => chi2LogSf(x, df),
    quantile: (p, tail) => chi2Quantile(p, df, tail),
  });
}

/** P(X <= x). */
export function chi2Cdf(x: number, df: number): number {
  requirePositive("df", df);
  return gammaLower(0.5 * x, 0.5 * df);
}

/** P(X > x). */
export function chi2Sf(x: number, df: number): number {
  requirePositive("df", df);
  return gammaUpper(0.5 * x, 0.5 * df);
}

/** ln P(X <= x); -Infinity at 0. */
export function chi2LogCdf(x: number, df: number): number {
  requirePositive("df", df);
  return gammaLogLower(0.5 * x, 0.5 * df);
}

/** ln P(X > x). */
export function chi2LogSf(x: number, df: number): number {
  requirePositive("df", df);
  return gammaLogUpper(0.5 * x, 0.5 * df);
}

/** The x with P(X <= x) = p (tail "lower", the default) or P(X > x) = p ("upper"). */
export function chi2Quantile(p: number, df: number, tail: Tail = "lower"): number {
  requirePositive("df", df);
  requireQuantileOf(p, tail, [1]);
  return p === 0 || p === 1 ? 0 : 2 * gammaPoint(p, 0.5 * df, tail);
}
