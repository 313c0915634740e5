/**
 * The exact distribution of a whole-number statistic over all equally likely allocations, and its tails.
 * Counts are kept as floating numbers: above 2^53 they are exact to 15 digits, which is all a share needs.
 *
 * Units    those of the statistic; probabilities
 * Source   convolution over the equally likely allocations
 * Status   computed
 */
import { InputError } from "../input-error.ts";

/** How many allocations give each value of the statistic. */
export type ExactDistribution = ReadonlyMap<number, number>;

/** A table of more values than this would keep a page waiting for seconds. */
const largestTable = 1_000_000;
/** Up to so many places a plain table is quicker than a sparse one. */
const denseTable = 5_000_000;

/** Sum of `size` of the scores, over all choices of `size` of them. Scores are whole; a refusal names `argument`. */
export function subsetSums(scores: readonly number[], size: number, argument = "values"): ExactDistribution {
  const least = Math.min(...scores);
  const unit = scores.reduce((common, score) => commonDivisor(score - least, common), 0) || 1;
  // In steps of the unit above the least: short numbers, also for ranks, which are doubled.
  const steps = scores.map((score) => (score - least) / unit).sort((a, b) => a - b);
  const reach = steps.slice(steps.length - size).reduce((sum, step) => sum + step, 0);
  const scale = { unit, least: size * least };
  if (reach * size <= denseTable) return denseSums(steps, size, reach, scale);
  return inUnits(sparseSums(steps, size, argument), scale);
}

/** Sums of steps turned back into sums of scores. */
type Scale = { unit: number; least: number };

function inUnits(bySteps: ExactDistribution, { unit, least }: Scale): ExactDistribution {
  return new Map([...bySteps].map(([sum, count]) => [unit * sum + least, count]));
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/** Ranks and grades: every sum up to `reach` has a place. */
function denseSums(steps: readonly number[], size: number, reach: number, { unit, least }: Scale): ExactDistribution {
  // ways[k][sum]: choices of k of the steps seen so far; k runs downwards so that no step is used twice.
  const ways = Array.from({ length: size + 1 }, () => new Float64Array(reach + 1));
  ways[0]![0] = 1;
  // highest[k]: the largest sum of k steps so far, the last k of them, as they ascend.
  const highest = new Float64Array(size + 1);
  for (let seen = 0; seen < steps.length; seen++) {
    const step = steps[seen]!;
    // Whoever has taken fewer than this can no longer reach `size`.
    const fewest = Math.max(1, size - (steps.length - 1 - seen));
    for (let k = Math.min(size, seen + 1); k >= fewest; k--) {
      const from = ways[k - 1]!;
      const into = ways[k]!;
      const top = highest[k - 1]!;
      for (let sum = 0; sum <= top; sum++) into[sum + step]! += from[sum]!;
      highest[k] = top + step;
    }
  }
  const counts = ways[size]!;
  const result = new Map<number, number>();
  for (let sum = 0; sum <= reach; sum++) if (counts[sum]! > 0) result.set(unit * sum + least, counts[sum]!);
  return result;
}

/** Measured values: only the sums that occur. */
function sparseSums(steps: readonly number[], size: number, argument: string): ExactDistribution {
  const refusal = new InputError(argument, `${steps.length} values`, "fewer values, or values with fewer digits");
  if (mostSums(steps, size) > 20 * largestTable) throw refusal;
  const ways = Array.from({ length: size + 1 }, () => new Map<number, number>());
  ways[0]!.set(0, 1);
  let entries = 1;
  for (const [seen, step] of steps.entries()) {
    for (let k = Math.min(size, seen + 1); k >= 1; k--) {
      const into = ways[k]!;
      const before = into.size;
      for (const [sum, count] of ways[k - 1]!) into.set(sum + step, (into.get(sum + step) ?? 0) + count);
      entries += into.size - before;
      if (entries > largestTable) throw refusal;
    }
  }
  return ways[size]!;
}

/** No more sums than this can differ: by how often each step occurs, and by how far the sums reach. Saves a vain attempt. */
function mostSums(steps: readonly number[], size: number): number {
  const times = new Map<number, number>();
  for (const step of steps) times.set(step, (times.get(step) ?? 0) + 1);
  const choices = [...times.values()].reduce((product, count) => product * (count + 1), 1);
  return Math.min(choices, Math.max(...steps) * size * size);
}

/** Sum of the scores with a positive sign, over all signs. Scores are whole; a refusal names `argument`. */
export function signSums(scores: readonly number[], argument = "values"): ExactDistribution {
  return scores.reduce<ExactDistribution>(
    (sums, score) => {
      // A zero has two signs with one sum.
      const signs: [number, number][] =
        score === 0
          ? [[0, 2]]
          : [
              [0, 1],
              [score, 1],
            ];
      return convolved(sums, new Map(signs), argument);
    },
    new Map([[0, 1]]),
  );
}

/** Distribution of the sum of two independent statistics; a refusal names `argument`. */
export function convolved(first: ExactDistribution, second: ExactDistribution, argument = "blocks"): ExactDistribution {
  if (first.size * second.size > 20 * largestTable)
    throw new InputError(argument, `${first.size} x ${second.size} sums`, "fewer values, or values with fewer digits");
  const result = new Map<number, number>();
  for (const [a, ways] of first)
    for (const [b, more] of second) result.set(a + b, (result.get(a + b) ?? 0) + ways * more);
  return result;
}

/**
 * Shares of the allocations: `exactP` at least as far from the mean as the observed value, `exactPGreater` P(T >= t),
 * `exactPLess` P(T <= t), `midP` farther plus half of equally far. The mean is `total` / `parts`, both whole, so that distances
 * are compared in whole numbers. `slack` (same unit as the statistic): how much two equal values may differ, 0 for true integers.
 */
export function tails(
  distribution: ExactDistribution,
  observed: number,
  { total, parts, slack = 0 }: { total: number; parts: number; slack?: number },
) {
  const distance = Math.abs(parts * observed - total);
  const near = parts * slack;
  let all = 0;
  let farther = 0;
  let equallyFar = 0;
  let greater = 0;
  let less = 0;
  for (const [value, count] of distribution) {
    const excess = Math.abs(parts * value - total) - distance;
    all += count;
    if (excess > near) farther += count;
    else if (excess >= -near) equallyFar += count;
    if (value >= observed - slack) greater += count;
    if (value <= observed + slack) less += count;
  }
  return {
    exactP: (farther + equallyFar) / all,
    exactPGreater: greater / all,
    exactPLess: less / all,
    midP: (farther + equallyFar / 2) / all,
  };
}
