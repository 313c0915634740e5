/**
 * "All these treatments act alike", tested by rearranging the labels as they were dealt out: freely, or within blocks.
 * Exact for any number of units, ties and unequal groups; Fisher 1935, Pitman 1937 for the idea, the largest standardised
 * difference of two means as the statistic.
 *
 * Units   scores without unit; p as a share of the rearrangements
 * Source  Fisher 1935; Pitman 1937; drawn ones (1 + count) / (1 + draws): Phipson and Smyth 2010
 * Status  computed
 */
import { seededRandom } from "../numeric/random.ts";
import { allocationCount, eachAllocation } from "./allocations.ts";

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

/** The units of one block: scores less the block's mean, in ascending order, with the number of units of each group. */
type ScoreBlock = { centred: number[]; groupSizes: number[] };

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
  const groups = Math.max(...units.map((unit) => unit.group)) + 1;
  const blocks = scoreBlocks(units, groups);
  const largest = largestDifference(groupSizes(units, groups), statistic);
  const observed = largest(centredSums(units, groups));
  const atLeast = observed - 1e-9 * (1 + observed);
  const rearrangements = blocks.reduce((product, block) => product * allocationCount(block.groupSizes), 1);
  if (rearrangements <= enumeratedRearrangements) {
    const count = countEnumerated(blocks, groups, (sums) => largest(sums) >= atLeast);
    return { p: count / rearrangements, rearrangements, drawn: null };
  }
  const enough = (1 + draws) * (stopAbove + 1e-9) - 1;
  const count = countDrawn(blocks, groups, { draws, seed, enough }, (sums) => largest(sums) >= atLeast);
  return { p: (1 + count) / (1 + draws), rearrangements, drawn: draws };
}

/**
 * Smallest p that the layout and the ties allow two groups: the share of rearrangements that lie as far out as any can.
 * Closed form: the farthest ones give a group the highest, or the lowest, scores of every block.
 */
export function smallestRearrangementP(units: readonly LabelledScore[]): number {
  let [highest, lowest, shareHighest, shareLowest] = [0, 0, 1, 1];
  for (const { centred, groupSizes } of scoreBlocks(units, 2)) {
    const taken = groupSizes[0]!;
    const [n, all] = [centred.length, allocationCount(groupSizes)];
    if (taken === 0 || taken === n) continue;
    for (let at = 0; at < taken; at++) {
      lowest += centred[at]!;
      highest += centred[n - 1 - at]!;
    }
    shareLowest *= waysToTake(centred, centred[taken - 1]!, (score, edge) => score < edge - scoreSlack, taken) / all;
    shareHighest *= waysToTake(centred, centred[n - taken]!, (score, edge) => score > edge + scoreSlack, taken) / all;
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

function groupSizes(units: readonly LabelledScore[], groups: number): number[] {
  const sizes = Array.from({ length: groups }, () => 0);
  for (const { group } of units) sizes[group]!++;
  return sizes;
}

/** Sorted by block and score, so that neither the order of the table nor the numbers of the coupons change a drawn p. */
function scoreBlocks(units: readonly LabelledScore[], groups: number): ScoreBlock[] {
  const names = [...new Set(units.map((unit) => unit.block))].sort();
  return names.map((name) => {
    const inside = units.filter((unit) => unit.block === name);
    return {
      centred: centred(inside.map((unit) => unit.score)).sort((a, b) => a - b),
      groupSizes: groupSizes(inside, groups),
    };
  });
}

/** Tied scores give exact zeros: a block that tells nothing adds nothing, not a rounding error. */
function centred(scores: readonly number[]): number[] {
  const mean = scores.reduce((sum, score) => sum + score, 0) / scores.length;
  if (scores.every((score) => Math.abs(score - mean) < 1e-12)) return scores.map(() => 0);
  return scores.map((score) => score - mean);
}

/** Sums of the centred scores by group, as observed. */
function centredSums(units: readonly LabelledScore[], groups: number): Float64Array {
  const sums = new Float64Array(groups);
  for (const name of new Set(units.map((unit) => unit.block))) {
    const inside = units.filter((unit) => unit.block === name);
    const scores = centred(inside.map((unit) => unit.score));
    for (const [at, { group }] of inside.entries()) sums[group]! += scores[at]!;
  }
  return sums;
}

/** d = |mean - mean| / sqrt(1/n + 1/n), the largest over the pairs that count. */
function largestDifference(sizes: readonly number[], statistic: RearrangementStatistic) {
  const inverse = Float64Array.from(sizes, (size) => 1 / size);
  const pairs: { a: number; b: number; weight: number }[] = [];
  for (let b = 1; b < sizes.length; b++)
    for (let a = 0; a < (statistic === "control" ? 1 : b); a++)
      pairs.push({ a, b, weight: 1 / Math.sqrt(inverse[a]! + inverse[b]!) });
  const means = new Float64Array(sizes.length);
  return (sums: Float64Array | readonly number[]): number => {
    for (let at = 0; at < means.length; at++) means[at] = sums[at]! * inverse[at]!;
    let largest = 0;
    for (const { a, b, weight } of pairs) {
      const d = Math.abs(means[a]! - means[b]!) * weight;
      if (d > largest) largest = d;
    }
    return largest;
  };
}

function countEnumerated(blocks: readonly ScoreBlock[], groups: number, counts: (sums: number[]) => boolean): number {
  const sums = Array.from({ length: groups }, () => 0);
  let count = 0;
  const visit = (block: number): void => {
    const here = blocks[block];
    if (here) eachAllocation(here.centred, here.groupSizes, sums, () => visit(block + 1));
    else if (counts(sums)) count++;
  };
  visit(0);
  return count;
}

/** Labels shuffled within each block, block after block, from one stream of random numbers. */
function countDrawn(
  blocks: readonly ScoreBlock[],
  groups: number,
  { draws, seed, enough }: { draws: number; seed: number; enough: number },
  counts: (sums: Float64Array) => boolean,
): number {
  const random = seededRandom(seed).next;
  const dealt = blocks.map(({ centred, groupSizes }) => ({
    scores: Float64Array.from(centred),
    labels: Uint8Array.from(groupSizes.flatMap((size, group) => Array.from({ length: size }, () => group))),
  }));
  const sums = new Float64Array(groups);
  let count = 0;
  for (let draw = 0; draw < draws && count <= enough; draw++) {
    sums.fill(0);
    for (const { scores, labels } of dealt) addShuffled(scores, labels, sums, random);
    if (counts(sums)) count++;
  }
  return count;
}

/**
 * Shuffles the labels and adds each score to the sum of its label on the way. One random number serves three places, each taking its
 * digits off the top: of 53 random bits even the third place of a hundred units keeps more than 35.
 */
function addShuffled(scores: Float64Array, labels: Uint8Array, sums: Float64Array, random: () => number): void {
  let digits = 0;
  for (let at = labels.length - 1; at >= 0; at--) {
    if (at % 3 === 2 || at === labels.length - 1) digits = random();
    const place = digits * (at + 1);
    const from = Math.floor(place);
    digits = place - from;
    const label = labels[from]!;
    labels[from] = labels[at]!;
    labels[at] = label;
    sums[label]! += scores[at]!;
  }
}
