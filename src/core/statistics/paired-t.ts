/** Pairs of values: two faces of a coupon, two graders, before and after. */
import { InputError, requireFraction } from "../input-error.ts";
import { tQuantile, tTwoSided } from "../numeric/t-distribution.ts";
import { mean, requireScatter, sumOfSquares, variance } from "./moments.ts";
import { requireValues } from "./value-list.ts";

/**
 * Paired t test.
 *
 * Method   means.pairedT
 * Formula  t = mean difference / (sd of the differences / √n), n - 1 degrees of freedom, p two-sided
 * Units    any; difference = a less b
 * Source   Student 1908
 * Status   computed
 * Holds    for differences scattered about evenly
 * Refuses  unequal lengths; fewer than two pairs; differences without scatter; a confidence not between 0 and 1
 */
export function pairedT({ a, b, confidence }: { a: number[]; b: number[]; confidence: number }) {
  const differences = differencesOf(a, b);
  requireFraction("confidence", confidence);
  requireScatter("a", sumOfSquares(differences), [...a, ...b], "pairs whose differences scatter");
  const df = differences.length - 1;
  const meanDifference = mean(differences);
  const standardError = Math.sqrt(variance(differences) / differences.length);
  const half = tQuantile((1 - confidence) / 2, df, "upper") * standardError;
  const t = meanDifference / standardError;
  return { meanDifference, t, df, p: tTwoSided(t, df), lower: meanDifference - half, upper: meanDifference + half };
}

/** a less b of two or more pairs. */
export function differencesOf(a: number[], b: number[]): number[] {
  requireValues("a", a, 2);
  requireValues("b", b, 2);
  if (a.length !== b.length) throw new InputError("b", b, `as many values as a, ${a.length}`);
  return a.map((value, at) => value - b[at]!);
}
