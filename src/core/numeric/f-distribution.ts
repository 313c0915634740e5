/** The F distribution. */
import { requirePositive } from "../input-error.ts";
import {
  answer,
  type DistributionQuestion,
  finiteQuantile,
  requireQuantileOf,
  type Tail,
} from "./distribution-question.ts";
import { betaLogit, betaLogLower, betaLogUpper, betaLower, betaUpper, type UnitPoint } from "./incomplete-beta.ts";

/**
 * Probabilities, their logarithms and quantiles of Fisher's F.
 *
 * Method   distribution.f
 * Formula  cdf = I(df1 x / (df1 x + df2); df1/2, df2/2)
 * Units    x without unit; df1, df2 above 0, need not be whole; p as a fraction
 * Source   definition; NIST DLMF 8.17
 * Status   computed
 * Holds    in both tails to about 12 digits
 * Refuses  df of 0 or less; the p whose quantile is not finite
 */
export function fDistribution(question: DistributionQuestion & { df1: number; df2: number }): { value: number } {
  const { df1, df2 } = question;
  requirePositive("df1", df1);
  requirePositive("df2", df2);
  return answer(question, {
    cdf: (x) => fCdf(x, df1, df2),
    sf: (x) => fSf(x, df1, df2),
    logCdf: (x) => fLogCdf(x, df1, df2),
    logSf: (x) => fLogSf(x, df1, df2),
    quantile: (p, tail) => fQuantile(p, df1, df2, tail),
  });
}

/** P(F <= f). */
export function fCdf(f: number, df1: number, df2: number): number {
  return betaLower(share(f, df1, df2), 0.5 * df1, 0.5 * df2);
}

/** P(F > f). */
export function fSf(f: number, df1: number, df2: number): number {
  return betaUpper(share(f, df1, df2), 0.5 * df1, 0.5 * df2);
}

/** ln P(F <= f); -Infinity at 0. */
export function fLogCdf(f: number, df1: number, df2: number): number {
  return betaLogLower(share(f, df1, df2), 0.5 * df1, 0.5 * df2);
}

/** ln P(F > f). */
export function fLogSf(f: number, df1: number, df2: number): number {
  return betaLogUpper(share(f, df1, df2), 0.5 * df1, 0.5 * df2);
}

function share(f: number, df1: number, df2: number): UnitPoint {
  requirePositive("df1", df1);
  requirePositive("df2", df2);
  if (f <= 0) return { x: 0, complement: 1 };
  const ratio = (df1 / df2) * f;
  return ratio === Number.POSITIVE_INFINITY
    ? { x: 1, complement: 0 }
    : { x: ratio / (1 + ratio), complement: 1 / (1 + ratio) };
}

/** The f with P(F <= f) = p (tail "lower", the default) or P(F > f) = p ("upper"). */
export function fQuantile(p: number, df1: number, df2: number, tail: Tail = "lower"): number {
  requirePositive("df1", df1);
  requirePositive("df2", df2);
  requireQuantileOf(p, tail, [1]);
  if (p === 0 || p === 1) return 0;
  return finiteQuantile(p, (df2 / df1) * Math.exp(betaLogit(p, 0.5 * df1, 0.5 * df2, tail)));
}
