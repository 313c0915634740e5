/** Do several treatments differ in their ranks? */
import { chi2Sf } from "../numeric/chi2-distribution.ts";
import { allocationCount, eachAllocation } from "./allocations.ts";
import { doubledMidranks, tieTerm } from "./midranks.ts";
import { requireGroups } from "./table-of-values.ts";

/** Above it the exact p is left out (null). */
const enumeratedAllocations = 2e7;

/**
 * Kruskal-Wallis test of several groups, exact where the allocations can be gone through.
 *
 * Method   comparison.kruskalWallis
 * Formula  h = [12 / (N (N + 1)) sum R^2 / n - 3 (N + 1)] / [1 - sum(t^3 - t) / (N^3 - N)]; exactP = share of all allocations with h at
 *          least the observed one; asymptoticP from chi-square with groups - 1 df
 * Units    any, the same in all groups; counts and shares
 * Source   Kruskal and Wallis 1952; midranks
 * Status   computed
 * Holds    for coupons allotted at random; exactP null above 2e7 allocations; one coupon per group always gives p 1
 * Refuses  fewer than two groups, an empty group, a value that is not finite
 */
export function kruskalWallis({ groups }: { groups: number[][] }) {
  requireGroups("groups", groups, 1);
  const values = groups.flat();
  const sizes = groups.map((group) => group.length);
  const n = values.length;
  const ranks = doubledMidranks(values);
  // Doubled ranks less their mean: whole numbers that add up to 0.
  const scores = ranks.map((rank) => rank - (n + 1));
  const sums = sumsOf(scores, sizes);
  const df = groups.length - 1;
  const allocations = allocationCount(sizes);
  const tieFactor = 1 - tieTerm(values) / (n ** 3 - n);
  const allTied = scores.every((score) => score === 0);
  const spread = sums.reduce((total, sum, at) => total + sum ** 2 / sizes[at]!, 0);
  const h = allTied ? null : (3 * spread) / (n * (n + 1)) / tieFactor;
  return {
    h,
    df,
    allocations,
    asymptoticP: h === null ? null : chi2Sf(h, df),
    exactP: allocations > enumeratedAllocations ? null : allTied ? 1 : exactShare(scores, sizes, spread, allocations),
  };
}

/** Sums of scores that stand in the order of their groups. */
function sumsOf(scores: readonly number[], sizes: readonly number[]): number[] {
  let from = 0;
  return sizes.map((size) => {
    const sum = scores.slice(from, from + size).reduce((total, score) => total + score, 0);
    from += size;
    return sum;
  });
}

function exactShare(scores: readonly number[], sizes: readonly number[], spread: number, allocations: number): number {
  const atLeast = spread - 1e-9 * Math.max(1, spread);
  let count = 0;
  eachAllocation([{ scores, groupSizes: sizes }], (sums, ways) => {
    let here = 0;
    for (let group = 0; group < sizes.length; group++) here += sums[group]! ** 2 / sizes[group]!;
    if (here >= atLeast) count += ways;
  });
  return count / allocations;
}
