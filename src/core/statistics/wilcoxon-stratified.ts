/** Do two treatments differ in their ranks within blocks? */
import { InputError, requireList, requireOneOf } from "../input-error.ts";
import { normalSf } from "../numeric/normal-distribution.ts";
import { convolved, type ExactDistribution, subsetSums, tails } from "./exact-distribution.ts";
import { doubledMidranks } from "./midranks.ts";
import { requireValues } from "./value-list.ts";

type TwoTreatments = { first: number[]; second: number[] };
/** Doubled rank sum of the first treatment less its mean, its distribution and its variance. */
type BlockRanks = { observed: number; distribution: ExactDistribution; variance: number; size: number };

/**
 * Exact stratified rank-sum test (van Elteren).
 *
 * Method   comparison.wilcoxonStratified
 * Formula  statistic = sum over blocks of w (W - n1 (N + 1) / 2), W the rank sum of the first within its block; w = 1 / (N + 1)
 *          ("vanElteren") or 1 ("equal"); exactP = share of the allocations within blocks at least as far from 0
 * Units    any, the same within a block; the statistic in weighted ranks; shares; greater: the first is higher
 * Source   van Elteren 1960; midranks within blocks, conditional on the ties
 * Status   computed
 * Holds    when treatments were allotted at random within each block
 * Refuses  no blocks, a block with one treatment only, weights that are not listed
 */
export function wilcoxonStratified({ blocks, weights }: { blocks: TwoTreatments[]; weights: "vanElteren" | "equal" }) {
  requireList("blocks", blocks);
  requireOneOf("weights", weights, ["vanElteren", "equal"]);
  const ranked = (blocks as TwoTreatments[]).map(blockRanks);
  // In whole numbers: all weights times their least common denominator.
  const denominator = weights === "equal" ? 1 : ranked.reduce((common, { size }) => leastMultiple(common, size + 1), 1);
  const weightOf = ({ size }: BlockRanks) => (weights === "equal" ? 1 : denominator / (size + 1));
  if (!Number.isSafeInteger(denominator * ranked.reduce((sum, { size }) => sum + size ** 2, 0)))
    throw new InputError(
      "blocks",
      ranked.map(({ size }) => size),
      "blocks of fewer different sizes",
    );
  let distribution: ExactDistribution = new Map([[0, 1]]);
  let [observed, variance] = [0, 0];
  for (const block of ranked) {
    const weight = weightOf(block);
    observed += weight * block.observed;
    variance += weight ** 2 * block.variance;
    distribution = convolved(
      distribution,
      new Map([...block.distribution].map(([sum, count]) => [weight * sum, count])),
    );
  }
  const { midP: _, ...shares } = tails(distribution, observed, { total: 0, parts: 1 });
  const asymptoticP = variance === 0 ? null : 2 * normalSf(Math.abs(observed) / Math.sqrt(variance));
  return { statistic: observed / (2 * denominator), ...shares, asymptoticP };
}

function blockRanks({ first, second }: TwoTreatments, at: number): BlockRanks {
  requireValues(`blocks[${at}].first`, first);
  requireValues(`blocks[${at}].second`, second);
  const ranks = doubledMidranks([...first, ...second]);
  const [n1, size] = [first.length, ranks.length];
  const mean = n1 * (size + 1);
  const squares = ranks.reduce((sum, rank) => sum + (rank - size - 1) ** 2, 0);
  return {
    observed: ranks.slice(0, n1).reduce((sum, rank) => sum + rank, 0) - mean,
    distribution: new Map([...subsetSums(ranks, n1)].map(([sum, count]) => [sum - mean, count])),
    variance: (n1 * (size - n1) * squares) / (size * (size - 1)),
    size,
  };
}

function leastMultiple(a: number, b: number): number {
  let [large, small] = [a, b];
  while (small > 0) [large, small] = [small, large % small];
  return (a / large) * b;
}
