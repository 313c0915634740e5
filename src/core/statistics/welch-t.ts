/** Two groups of values, unequal scatter allowed. */
import { tTwoSided } from "../numeric/t-distribution.ts";
import { mean, requireScatter, sumOfSquares, variance } from "./moments.ts";
import { requireValues } from "./value-list.ts";

/**
 * Welch's t test of two means.
 *
 * Method   statistics.welchT
 * Formula  t = (mean a - mean b) / √(sa²/na + sb²/nb), df by Welch and Satterthwaite, p two-sided
 * Units    any, the same in both groups
 * Source   Welch 1947
 * Status   computed
 * Holds    for values scattered about evenly; a handful of ratings or skewed areas belongs to the exact rank test
 * Refuses  a group of fewer than two values; no scatter in either group
 */
export function welchT({ a, b }: { a: number[]; b: number[] }): { t: number; df: number; p: number } {
  requireValues("a", a, 2);
  requireValues("b", b, 2);
  requireScatter("a", sumOfSquares(a) + sumOfSquares(b), [...a, ...b], "groups of which at least one scatters");
  const { squaredError, df } = welchError(a, b);
  const t = (mean(a) - mean(b)) / Math.sqrt(squaredError);
  return { t, df, p: tTwoSided(t, df) };
}

/** Squared standard error of a difference of two means, and its degrees of freedom (Satterthwaite). */
export function welchError(a: readonly number[], b: readonly number[]): { squaredError: number; df: number } {
  const ofA = variance(a) / a.length;
  const ofB = variance(b) / b.length;
  const squaredError = ofA + ofB;
  // As shares, so that tiny variances do not underflow when squared.
  const df = 1 / ((ofA / squaredError) ** 2 / (a.length - 1) + (ofB / squaredError) ** 2 / (b.length - 1));
  return { squaredError, df };
}
