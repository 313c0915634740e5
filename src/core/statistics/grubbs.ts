/** Whether one value stands out from its group. */
import { requireFraction } from "../input-error.ts";
import { tQuantile, tSf } from "../numeric/t-distribution.ts";
import { mean, requireScatter, sumOfSquares, variance } from "./moments.ts";
import { requireValues } from "./value-list.ts";

/**
 * Grubbs' test of the value farthest from the mean.
 *
 * Method   means.grubbs
 * Formula  g = |value - mean| / sd; critical = (n-1)/√n √(t²/(n-2+t²)), t = t(1 - alpha/2n; n-2)
 * Units    those of the values; index counts from 0
 * Source   Grubbs 1969, two-sided
 * Status   computed
 * Holds    for one stray among normal values: a reason to look at the coupon, not to drop it
 * Refuses  fewer than three values; no scatter; an alpha not between 0 and 1
 */
export function grubbs({ values, alpha }: { values: number[]; alpha: number }) {
  requireValues("values", values, 3);
  requireFraction("alpha", alpha);
  requireScatter("values", sumOfSquares(values), values, "values that scatter");
  const n = values.length;
  const middle = mean(values);
  const distances = values.map((value) => Math.abs(value - middle));
  const distance = Math.max(...distances);
  const index = distances.indexOf(distance);
  const g = distance / Math.sqrt(variance(values));
  const t = tQuantile(alpha / (2 * n), n - 2, "upper");
  const critical = ((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t));
  // The same t, from the scatter of the others: (n-1)² - n g² would cancel when they are close together.
  const squaresOfOthers = sumOfSquares(values.toSpliced(index, 1));
  const tOfValue = distance * Math.sqrt((n * (n - 2)) / ((n - 1) * squaresOfOthers));
  return { g, index, critical, pBonferroni: Math.min(1, 2 * n * tSf(tOfValue, n - 2)), outlier: g > critical };
}
