/** Several groups of values with unequal scatter. */
import { fSf } from "../numeric/f-distribution.ts";
import { centred, mean, requireScatter, sum, sumOfSquares, variance } from "./moments.ts";
import { requireGroups } from "./table-of-values.ts";

/**
 * Welch's one-way test of means.
 *
 * Method   means.welchAnova
 * Formula  weights w = n/s²; F = (Σ w (mean - weighted mean)² / (k-1)) / (1 + 2 (k-2) L / (k²-1)), L = Σ (1 - w/Σw)²/(n-1);
 *          df2 = (k²-1) / (3 L)
 * Units    any, the same in all groups
 * Source   Welch 1951
 * Status   computed
 * Holds    without equal scatter; with two groups F is the square of Welch's t
 * Refuses  one group; a group of fewer than two values or without scatter
 */
export function welchAnova({ groups }: { groups: number[][] }): { f: number; df1: number; df2: number; p: number } {
  requireGroups("groups", groups, 2);
  for (const [at, group] of groups.entries())
    requireScatter(`groups[${at}]`, sumOfSquares(group), group, "a group that scatters");
  const values = centred(groups);
  const means = values.map(mean);
  const weights = values.map((group) => group.length / variance(group));
  const total = sum(weights);
  const weightedMean = sum(weights.map((weight, at) => weight * means[at]!)) / total;
  const k = groups.length;
  const unevenness = sum(weights.map((weight, at) => (1 - weight / total) ** 2 / (groups[at]!.length - 1)));
  const between = sum(weights.map((weight, at) => weight * (means[at]! - weightedMean) ** 2)) / (k - 1);
  const f = between / (1 + (2 * (k - 2) * unevenness) / (k * k - 1));
  const df2 = (k * k - 1) / (3 * unevenness);
  return { f, df1: k - 1, df2, p: fSf(f, k - 1, df2) };
}
