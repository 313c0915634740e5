/** How far two proportions are apart. */
import { requireFraction } from "../input-error.ts";
import { type FourCounts, requireFourCounts } from "./four-counts.ts";
import { wilsonInterval } from "./wilson-interval.ts";

/**
 * Newcombe's interval of a difference of two proportions.
 *
 * Method   proportion.newcombeDifference
 * Formula  d - √((p1 - l1)² + (u2 - p2)²) to d + √((u1 - p1)² + (p2 - l2)²), l and u the Wilson limits of each group
 * Units    counts in; difference (first less second) from -1 to 1
 * Source   Newcombe 1998, hybrid score interval without continuity correction
 * Status   computed
 * Holds    for coupons treated separately
 * Refuses  counts that are not whole; more successes than trials; a group without trials; a confidence not between 0 and 1
 */
export function newcombeDifference({ confidence, ...counts }: FourCounts & { confidence: number }): {
  difference: number;
  lower: number;
  upper: number;
} {
  requireFourCounts(counts);
  requireFraction("confidence", confidence);
  const first = counts.successes1 / counts.trials1;
  const second = counts.successes2 / counts.trials2;
  const ofFirst = wilsonInterval({ successes: counts.successes1, trials: counts.trials1, confidence });
  const ofSecond = wilsonInterval({ successes: counts.successes2, trials: counts.trials2, confidence });
  const difference = first - second;
  return {
    difference,
    lower: difference - Math.hypot(first - ofFirst.lower, ofSecond.upper - second),
    upper: difference + Math.hypot(ofFirst.upper - first, second - ofSecond.lower),
  };
}
