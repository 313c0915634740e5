/**
 * How many allocations of two groups within blocks lie far out. Not one by one: the sums of the first half of the coupons and of the
 * second half are listed and sorted, and each sum of the one meets all of the other that take it far enough.
 *
 * Units    counts; scores less their block's mean
 * Source   meeting in the middle (Horowitz and Sahni 1974)
 * Status   computed
 */
import type { DealtBlock } from "./allocations.ts";

/** Different sums in ascending order, and how many choices give each. */
type Sums = { values: number[]; ways: number[] };

/** Sums closer than this are one: the same scores added in another order. Far below the slack of any comparison. */
const sameSum = 1e-12;

/** Allocations whose sum of group 0 is at least `distance` (above 0) away from 0. */
export function countFarSums(blocks: readonly DealtBlock[], distance: number): number {
  const coupons = blocks.reduce((sum, block) => sum + block.scores.length, 0);
  let first: Sums = nothingTaken;
  let left = Math.ceil(coupons / 2);
  let at = 0;
  for (; left >= (blocks[at]?.scores.length ?? Number.POSITIVE_INFINITY); at++) {
    const block = blocks[at]!;
    left -= block.scores.length;
    first = wholeBlock(first, block);
  }
  let second: Sums = nothingTaken;
  for (let later = blocks.length - 1; later > at; later--) second = wholeBlock(second, blocks[later]!);
  const cut = blocks[at];
  if (!cut) return countPairs(first, second, distance);
  const taken = cut.groupSizes[0]!;
  const [before, after] = [cut.scores.slice(0, left), cut.scores.slice(left)];
  const firstBy = sumsByTaken(first, before, taken);
  const secondBy = sumsByTaken(second, after, taken);
  let count = 0;
  for (let k = Math.max(0, taken - after.length); k <= Math.min(taken, before.length); k++)
    count += countPairs(firstBy[k]!, secondBy[taken - k]!, distance);
  return count;
}

const nothingTaken: Sums = { values: [0], ways: [1] };

function wholeBlock(start: Sums, { scores, groupSizes }: DealtBlock): Sums {
  return sumsByTaken(start, scores, groupSizes[0]!)[groupSizes[0]!]!;
}

/** Sums of `start` and of k of the scores, for each k up to `most`. */
function sumsByTaken(start: Sums, scores: readonly number[], most: number): Sums[] {
  const byTaken: Sums[] = [start];
  for (const [seen, score] of scores.entries())
    for (let k = Math.min(most, seen + 1); k >= 1; k--) byTaken[k] = merged(byTaken[k], byTaken[k - 1]!, score);
  return byTaken;
}

/** Both lists in one, the second raised by `score`. */
function merged(list: Sums | undefined, other: Sums, score: number): Sums {
  if (!list) return { values: other.values.map((value) => value + score), ways: other.ways };
  const values: number[] = [];
  const ways: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0, j = 0; i < list.values.length || j < other.values.length; ) {
    const own = list.values[i] ?? Number.POSITIVE_INFINITY;
    const raised = (other.values[j] ?? Number.POSITIVE_INFINITY) + score;
    const value = Math.min(own, raised);
    const count = own <= raised ? list.ways[i++]! : other.ways[j++]!;
    if (value - last < sameSum) ways[ways.length - 1]! += count;
    else {
      values.push(value);
      ways.push(count);
      last = value;
    }
  }
  return { values, ways };
}

/** Pairs of one sum from each list with a total of `distance` or more, or of minus that or less. */
function countPairs(first: Sums, second: Sums, distance: number): number {
  let count = 0;
  // As the first sum rises, ever more of the second reach the upper side and ever fewer stay on the lower.
  let [high, waysHigh] = [second.values.length, 0];
  let low = second.values.length;
  let waysLow = second.ways.reduce((sum, ways) => sum + ways, 0);
  for (let at = 0; at < first.values.length; at++) {
    const sum = first.values[at]!;
    while (high > 0 && sum + second.values[high - 1]! >= distance) waysHigh += second.ways[--high]!;
    while (low > 0 && sum + second.values[low - 1]! > -distance) waysLow -= second.ways[--low]!;
    count += first.ways[at]! * (waysHigh + waysLow);
  }
  return count;
}
