/** Do two groups differ in their ranks? Exact with ties and unequal groups. */
import { normalSf } from "../numeric/normal-distribution.ts";
import { subsetSums, tails } from "./exact-distribution.ts";
import { doubledMidranks, tieTerm } from "./midranks.ts";
import { requireValues } from "./value-list.ts";

/**
 * Exact Wilcoxon rank-sum (Mann-Whitney) test.
 *
 * Method   comparison.wilcoxonExact
 * Formula  u = pairs with first > second + half of the tied pairs; exactP = share of all allocations with u at least as far from
 *          its mean n1 n2 / 2; midP = farther + half of equally far; asymptoticP from the tie-corrected variance
 *          n1 n2 / 12 (N + 1 - sum(t^3 - t) / (N (N - 1))), no continuity correction
 * Units    any, the same in both groups; u a count of pairs, the rest shares; greater: the first group is higher
 * Source   Wilcoxon 1945; Mann and Whitney 1947; midranks, distribution conditional on the ties
 * Status   computed
 * Holds    for independent coupons allotted at random; two-sided by the distance from the mean, not by doubling
 * Refuses  an empty group, a value that is not finite
 */
export function wilcoxonExact({ first, second }: { first: number[]; second: number[] }) {
  requireValues("first", first);
  requireValues("second", second);
  const exact = rankSumTest(first, second);
  return { ...exact, asymptoticP: asymptoticP(exact.u, first, second) };
}

/** u of the first group and its exact shares; both groups must be checked. */
export function rankSumTest(first: readonly number[], second: readonly number[]) {
  const ranks = doubledMidranks([...first, ...second]);
  const n1 = first.length;
  const n = ranks.length;
  const observed = ranks.slice(0, n1).reduce((sum, rank) => sum + rank, 0);
  const shares = tails(subsetSums(ranks, n1), observed, { total: n1 * (n + 1), parts: 1 });
  return { u: (observed - n1 * (n1 + 1)) / 2, ...shares };
}

function asymptoticP(u: number, first: readonly number[], second: readonly number[]): number | null {
  const [n1, n2] = [first.length, second.length];
  const n = n1 + n2;
  const variance = ((n1 * n2) / 12) * (n + 1 - tieTerm([...first, ...second]) / (n * (n - 1)));
  if (!(variance > 1e-12)) return null;
  return 2 * normalSf(Math.abs(u - (n1 * n2) / 2) / Math.sqrt(variance));
}
