/** Student's t distribution. */
import { requirePositive } from "../input-error.ts";
import {
  answer,
  type DistributionQuestion,
  finiteQuantile,
  requireQuantileOf,
  type Tail,
} from "./distribution-question.ts";
import { betaLogit, betaLogUpper, betaUpper, type UnitPoint } from "./incomplete-beta.ts";

/**
 * Probabilities, their logarithms and quantiles of Student's t.
 *
 * Method   distribution.t
 * Formula  P(|T| > t) = 1 - I(t² / (df + t²); 1/2, df/2)
 * Units    x without unit; df above 0, need not be whole; p as a fraction
 * Source   definition; NIST DLMF 8.17
 * Status   computed
 * Holds    in both tails to about 12 digits
 * Refuses  df of 0 or less; p of 0 or 1, whose quantile is not finite
 */
export function tDistribution(question: DistributionQuestion & { df: number }): { value: number } {
  const { df } = question;
  requirePositive("df", df);
  return answer(question, {
    cdf: (x) => tCdf(x, df),
    sf: (x) => tSf(x, df),
    logCdf: (x) => tLogCdf(x, df),
    logSf: (x) => tLogSf(x, df),
    quantile: (p, tail) => tQuantile(p, df, tail),
  });
}

/** P(T <= t). */
export function tCdf(t: number, df: number): number {
  return tSf(-t, df);
}

/** P(T > t). */
export function tSf(t: number, df: number): number {
  requirePositive("df", df);
  const half = 0.5 * betaUpper(shareOfSquare(t, df), 0.5, 0.5 * df);
  return t >= 0 ? half : 1 - half;
}

/** P(|T| > |t|), the two-sided p. */
export function tTwoSided(t: number, df: number): number {
  requirePositive("df", df);
  return betaUpper(shareOfSquare(t, df), 0.5, 0.5 * df);
}

/** ln P(T <= t). */
export function tLogCdf(t: number, df: number): number {
  return tLogSf(-t, df);
}

/** ln P(T > t). */
export function tLogSf(t: number, df: number): number {
  requirePositive("df", df);
  const logHalf = betaLogUpper(shareOfSquare(t, df), 0.5, 0.5 * df) - Math.LN2;
  return t >= 0 ? logHalf : Math.log1p(-Math.exp(logHalf));
}

/** t² / (df + t²) and its complement, without overflow of t². */
function shareOfSquare(t: number, df: number): UnitPoint {
  const ratio = (t / Math.sqrt(df)) ** 2;
  return ratio === Number.POSITIVE_INFINITY
    ? { x: 1, complement: 0 }
    : { x: ratio / (1 + ratio), complement: 1 / (1 + ratio) };
}

/** The t with P(T <= t) = p (tail "lower", the default) or P(T > t) = p ("upper"); p strictly between 0 and 1. */
export function tQuantile(p: number, df: number, tail: Tail = "lower"): number {
  requirePositive("df", df);
  requireQuantileOf(p, tail, [0, 1]);
  if (p === 0.5) return 0;
  const lower = tail === "lower" ? p < 0.5 : p > 0.5;
  const twoSided = 2 * Math.min(p, 1 - p);
  const logit = betaLogit(twoSided, 0.5, 0.5 * df, "upper");
  const size = finiteQuantile(p, Math.sqrt(df) * Math.exp(0.5 * logit));
  return lower ? -size : size;
}
