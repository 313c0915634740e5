/** How far apart two groups are: the middle of all differences, with the interval of the exact rank-sum test. */
import { requireFraction } from "../input-error.ts";
import { type ExactDistribution, subsetSums } from "./exact-distribution.ts";
import { requireValues } from "./value-list.ts";

/**
 * Hodges-Lehmann shift of the first group against the second.
 *
 * Method   comparison.hodgesLehmann
 * Formula  estimate = median of all n1 n2 differences D; interval D_(k) to D_(n1 n2 + 1 - k), k the largest with
 *          P(U <= k - 1) <= (1 - confidence) / 2 in the distribution without ties
 * Units    of the values; confidence and achievedConfidence as fractions
 * Source   Hodges and Lehmann 1963
 * Status   computed
 * Holds    when the groups differ by a shift; with ties the interval is a little wide. Out of reach (3 against 3 at 95 %): ends
 *          null, achievedConfidence the most attainable
 * Refuses  an empty group, a value that is not finite, a confidence not between 0 and 1
 */
export function hodgesLehmann({
  first,
  second,
  confidence,
}: {
  first: number[];
  second: number[];
  confidence: number;
}) {
  requireValues("first", first);
  requireValues("second", second);
  requireFraction("confidence", confidence);
  const differences = first.flatMap((a) => second.map((b) => a - b));
  return medianWithInterval(differences, rankSumsWithoutTies(first.length, second.length), confidence);
}

/** Mann-Whitney U of untied groups: ranks 1 to N, less the least sum. */
export function rankSumsWithoutTies(n1: number, n2: number): ExactDistribution {
  const ranks = Array.from({ length: n1 + n2 }, (_, at) => at);
  const least = (n1 * (n1 - 1)) / 2;
  return new Map([...subsetSums(ranks, n1)].map(([sum, count]) => [sum - least, count]));
}

/**
 * Median of the contrasts, and the ordered contrasts that an exact symmetric test (statistic 0 to number of contrasts, distribution
 * `untied`) does not reject. Ends null where even the whole range falls short of the confidence.
 */
export function medianWithInterval(contrasts: readonly number[], untied: ExactDistribution, confidence: number) {
  const sorted = [...contrasts].sort((a, b) => a - b);
  const half = sorted.length / 2;
  const estimate = (sorted[Math.ceil(half) - 1]! + sorted[Math.floor(half)]!) / 2;
  const all = [...untied.values()].reduce((sum, count) => sum + count, 0);
  // tail: P(U <= k - 1) for the present k; 1e-9 as for every reached level, so that 3 against 3 reaches 90 %.
  const allowed = (1 - confidence) / 2 + 1e-9;
  let k = 0;
  let tail = 0;
  for (;;) {
    const next = tail + (untied.get(k) ?? 0) / all;
    if (next > allowed) break;
    tail = next;
    k++;
  }
  if (k === 0)
    return { estimate, lower: null, upper: null, achievedConfidence: Math.max(0, 1 - 2 * (untied.get(0)! / all)) };
  return { estimate, lower: sorted[k - 1]!, upper: sorted[sorted.length - k]!, achievedConfidence: 1 - 2 * tail };
}
