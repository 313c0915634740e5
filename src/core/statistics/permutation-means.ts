/** Do two groups differ in their means? By rearranging the measured values themselves. */
import { allocationCount } from "./allocations.ts";
import { subsetSums, tails } from "./exact-distribution.ts";
import { mean } from "./moments.ts";
import { requireValues } from "./value-list.ts";
import { wholeValues } from "./whole-values.ts";

/**
 * Exact permutation test of the difference of two means.
 *
 * Method   comparison.permutationMeans
 * Formula  exactP = share of all allocations whose sum of the first group lies at least as far from its mean as the observed one
 * Units    of the values; shares; greater: the first group is higher
 * Source   Fisher 1935; Pitman 1937
 * Status   computed
 * Holds    for coupons allotted at random; a single outlier takes the power away, ranks are safer
 * Refuses  an empty group, a value that is not finite, more different sums than a table can hold
 */
export function permutationMeans({ first, second }: { first: number[]; second: number[] }) {
  requireValues("first", first);
  requireValues("second", second);
  const { whole, slack } = wholeValues([...first, ...second]);
  const least = Math.min(...whole);
  const scores = whole.map((value) => value - least);
  const [n1, n] = [first.length, scores.length];
  const total = scores.reduce((sum, score) => sum + score, 0);
  const observed = scores.slice(0, n1).reduce((sum, score) => sum + score, 0);
  const { midP: _, ...shares } = tails(subsetSums(scores, n1, "first"), observed, {
    total: n1 * total,
    parts: n,
    slack,
  });
  return { difference: mean(first) - mean(second), allocations: allocationCount([n1, n - n1]), ...shares };
}
