/**
 * "All these treatments act alike", tested by rearranging the labels as they were dealt out: freely, or within blocks.
 * Exact for any number of units, ties and unequal groups; Fisher 1935, Pitman 1937 for the idea, the largest standardised
 * difference of two means as the statistic.
 *
 * Units   scores without unit; p as a share of the rearrangements
 * Source  Fisher 1935; Pitman 1937; drawn ones (1 + count) / (1 + draws): Phipson and Smyth 2010
 * Status  computed
 */
import { allocationCount, blockAllocationCount, type DealtBlock, eachAllocation } from "./allocations.ts";
import { drawAllocations } from "./drawn-rearrangements.ts";
import { countFarSums } from "./two-group-sums.ts";

/** Above so many rearrangements a seeded sample of them is drawn. */
export const enumeratedRearrangements = 300_000;
/** Drawn when they are not enumerated. Fixed beforehand: going on until p looks good is not allowed. */
export const drawnRearrangements = 19_999;

/** One unit: its score (not yet centred), the number of its treatment from 0, its block. */
export type LabelledScore = { score: number; group: number; block: string };

/** "control": the largest difference from group 0. "pairs": the largest of all differences. */
export type RearrangementStatistic = "control" | "pairs";

export type RearrangementP = {
  p: number;
  /** How many rearrangements there are; infinite when a number cannot hold them. */
  rearrangements: number;
  /** How many were drawn; null: all were counted. */
  drawn: number | null;
};

/**
 * Share of the rearrangements with a statistic at least the observed one. Never 0. Groups are numbered from 0, none is empty.
 * `stopAbove`: once p is certainly above it, drawing stops and p is only known to be as large as said.
 */
export function rearrangementTest(
  units: readonly LabelledScore[],
  {
    statistic,
    seed,
    draws = drawnRearrangements,
    stopAbove = 1,
  }: { statistic: RearrangementStatistic; seed: number; draws?: number; stopAbove?: number },
): RearrangementP {
  const { blocks, sizes, sums } = scoresInBlocks(units);
  const observed = largestDifference(sums, sizes, statistic);
  const atLeast = observed - 1e-9 * (1 + observed);
  const rearrangements = blockAllocationCount(blocks);
  if (rearrangements <= enumeratedRearrangements)
    return { p: countFarOut(blocks, sizes, statistic, atLeast) / rearrangements, rearrangements, drawn: null };
  const reaches = reachesDifference(sizes, statistic, atLeast);
  const enough = (1 + draws) * (stopAbove + 1e-9) - 1;
  let count = 0;
  drawAllocations(blocks, { draws, seed }, (drawn) => {
    if (reaches(drawn)) count++;
    return count <= enough;
  });
  return { p: (1 + count) / (1 + draws), rearrangements, drawn: draws };
}

/**
 * Smallest p that the layout and the ties allow two groups: the share of rearrangements that lie as far out as any can.
 * Closed form: the farthest ones give a group the highest, or the lowest, scores of every block.
 */
export function smallestRearrangementP(units: readonly LabelledScore[]): number {
  let [highest, lowest, shareHighest, shareLowest] = [0, 0, 1, 1];
  for (const { scores, groupSizes } of scoresInBlocks(units).blocks) {
    const taken = groupSizes[0]!;
    const [n, all] = [scores.length, allocationCount(groupSizes)];
    if (taken === 0 || taken === n) continue;
    for (let at = 0; at < taken; at++) {
      lowest += scores[at]!;
      highest += scores[n - 1 - at]!;
    }
    shareLowest *= waysToTake(scores, scores[taken - 1]!, (score, edge) => score < edge - scoreSlack, taken) / all;
    shareHighest *= waysToTake(scores, scores[n - taken]!, (score, edge) => score > edge + scoreSlack, taken) / all;
  }
  const slack = 1e-9 * (1 + Math.abs(highest));
  // Nothing can be moved apart: every rearrangement is as far out as every other.
  if (highest - lowest <= slack) return 1;
  if (highest > -lowest + slack) return shareHighest;
  if (-lowest > highest + slack) return shareLowest;
  return Math.min(1, shareHighest + shareLowest);
}

/** Smallest p without any ties, from the numbers of units alone. */
export function smallestUntiedP(sizesByBlock: readonly (readonly [number, number])[]): number {
  return Math.min(1, 2 / sizesByBlock.reduce((product, sizes) => product * allocationCount(sizes), 1));
}

const scoreSlack = 1e-9;

/** Choices of `taken` scores with the extreme sum: all beyond the edge, and any of those that tie with it. */
function waysToTake(
  scores: readonly number[],
  edge: number,
  beyond: (score: number, edge: number) => boolean,
  taken: number,
): number {
  let sure = 0;
  let tied = 0;
  for (const score of scores) {
    if (beyond(score, edge)) sure++;
    else if (Math.abs(score - edge) <= scoreSlack) tied++;
  }
  return allocationCount([taken - sure, tied - (taken - sure)]);
}

/**
 * Scores less the block's mean, in ascending order. Sorted by block and score, so that neither the order of the table nor the numbers of
 * the coupons change a drawn p. `sums`: of the centred scores by group, as observed.
 */
function scoresInBlocks(units: readonly LabelledScore[]): {
  blocks: DealtBlock[];
  sizes: number[];
  sums: Float64Array;
} {
  let groups = 0;
  const byBlock = new Map<string, LabelledScore[]>();
  for (const unit of units) {
    groups = Math.max(groups, unit.group + 1);
    const inside = byBlock.get(unit.block);
    if (inside) inside.push(unit);
    else byBlock.set(unit.block, [unit]);
  }
  const sizes = new Array<number>(groups).fill(0);
  const sums = new Float64Array(groups);
  const blocks = [...byBlock.keys()].sort().map((name): DealtBlock => {
    const inside = byBlock.get(name)!;
    const scores = centred(inside);
    const groupSizes = new Array<number>(groups).fill(0);
    for (let at = 0; at < inside.length; at++) {
      const { group } = inside[at]!;
      groupSizes[group]!++;
      sizes[group]!++;
      sums[group]! += scores[at]!;
    }
    return { scores: scores.sort((one, other) => one - other), groupSizes };
  });
  return { blocks, sizes, sums };
}

/** Tied scores give exact zeros: a block that tells nothing adds nothing, not a rounding error. */
function centred(units: readonly LabelledScore[]): number[] {
  const mean = units.reduce((sum, { score }) => sum + score, 0) / units.length;
  if (units.every(({ score }) => Math.abs(score - mean) < 1e-12)) return units.map(() => 0);
  return units.map(({ score }) => score - mean);
}

type ComparedGroups = { a: number; b: number; weight: number };

/** The pairs of groups that count. d = |mean - mean| weight, weight = 1 / sqrt(1/n + 1/n). */
function comparedGroups(sizes: readonly number[], statistic: RearrangementStatistic): ComparedGroups[] {
  const pairs: ComparedGroups[] = [];
  for (let b = 1; b < sizes.length; b++)
    for (let a = 0; a < (statistic === "control" ? 1 : b); a++)
      pairs.push({ a, b, weight: 1 / Math.sqrt(1 / sizes[a]! + 1 / sizes[b]!) });
  return pairs;
}

/** Largest standardised difference that counts, from the sums of the scores by group. */
export function largestDifference(
  sums: ArrayLike<number>,
  sizes: readonly number[],
  statistic: RearrangementStatistic,
): number {
  let largest = 0;
  for (const { a, b, weight } of comparedGroups(sizes, statistic))
    largest = Math.max(largest, Math.abs(sums[a]! / sizes[a]! - sums[b]! / sizes[b]!) * weight);
  return largest;
}

/** Whether any pair lies at least so far apart: most rearrangements are told by the first that does. */
export function reachesDifference(sizes: readonly number[], statistic: RearrangementStatistic, atLeast: number) {
  const pairs = comparedGroups(sizes, statistic);
  // Numbers of one kind in a row each: asked once for every rearrangement.
  const [first, second] = [Int32Array.from(pairs, ({ a }) => a), Int32Array.from(pairs, ({ b }) => b)];
  const gaps = Float64Array.from(pairs, ({ weight }) => atLeast / weight);
  const inverse = Float64Array.from(sizes, (size) => 1 / size);
  return (sums: Float64Array): boolean => {
    for (let at = 0; at < gaps.length; at++) {
      const [a, b] = [first[at]!, second[at]!];
      if (Math.abs(sums[a]! * inverse[a]! - sums[b]! * inverse[b]!) >= gaps[at]!) return true;
    }
    return false;
  };
}

function countFarOut(
  blocks: readonly DealtBlock[],
  sizes: readonly number[],
  statistic: RearrangementStatistic,
  atLeast: number,
): number {
  if (atLeast <= 0) return blockAllocationCount(blocks);
  // Two sums that add up to 0: d is the one of them times sqrt(1/n + 1/n).
  if (sizes.length === 2) return countFarSums(blocks, atLeast / Math.sqrt(1 / sizes[0]! + 1 / sizes[1]!));
  const reaches = reachesDifference(sizes, statistic, atLeast);
  let count = 0;
  eachAllocation(blocks, (sums, ways) => {
    if (reaches(sums)) count += ways;
  });
  return count;
}
