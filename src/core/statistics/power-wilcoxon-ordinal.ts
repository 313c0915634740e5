/** Chance that the rank-sum test tells two groups of grades apart. */
import { InputError, requireFraction, requireList, requireWhole } from "../input-error.ts";
import { combinations } from "../numeric/combinations.ts";
import { logFactorial } from "../numeric/log-gamma.ts";
import { reaches } from "./two-one-sided.ts";

const largestWork = 3e6;

/**
 * Power of the exact rank-sum test for ordered classes.
 *
 * Method   power.wilcoxonOrdinal
 * Formula  over all pairs of counts by class: chance under the two multinomials, added up where the exact two-sided p (conditional on
 *          the ties, by the distance from the mean) is at most alpha
 * Units    probabilities by class in order, adding up to 1; sizes in coupons treated separately
 * Source   Wilcoxon 1945 with midranks; multinomial distribution
 * Status   computed
 * Holds    exactly, for independent coupons
 * Refuses  probabilities that are negative or do not add up to 1, lists of different length, an empty group, an alpha not between
 *          0 and 1, more tables than can be gone through
 */
export function wilcoxonOrdinal(plan: {
  probabilities1: number[];
  probabilities2: number[];
  n1: number;
  n2: number;
  alpha: number;
}) {
  const { probabilities1, probabilities2, n1, n2, alpha } = plan;
  requireProbabilities("probabilities1", probabilities1);
  requireProbabilities("probabilities2", probabilities2);
  const classes = probabilities1.length;
  if (probabilities2.length !== classes)
    throw new InputError("probabilities2", probabilities2, `as many classes as probabilities1, ${classes}`);
  requireWhole("n1", n1, 1);
  requireWhole("n2", n2, 1);
  requireFraction("alpha", alpha);
  const tables = [n1, n2].reduce((product, n) => product * Number(combinations(n + classes - 1, n)), 1);
  if (tables > largestWork) throw new InputError("n1", n1, `fewer coupons or classes: ${tables} tables are too many`);
  let power = 0;
  for (const totals of countVectors(
    n1 + n2,
    Array.from({ length: classes }, () => n1 + n2),
  )) {
    for (const { counts, p } of conditionalPValues(totals, n1)) {
      if (!reaches(p, alpha)) continue;
      const rest = totals.map((total, at) => total - counts[at]!);
      power += multinomial(counts, probabilities1) * multinomial(rest, probabilities2);
    }
  }
  return { power };
}

function requireProbabilities(argument: string, value: unknown): asserts value is number[] {
  requireList(argument, value);
  let sum = 0;
  for (const [at, one] of value.entries()) {
    if (typeof one !== "number" || !(one >= 0 && one <= 1))
      throw new InputError(`${argument}[${at}]`, one, "a probability from 0 to 1");
    sum += one;
  }
  if (Math.abs(sum - 1) > 1e-9) throw new InputError(argument, value, "probabilities that add up to 1");
}

/** All lists of counts with this sum, none above its limit. */
function countVectors(sum: number, limits: readonly number[]): number[][] {
  const [limit, ...rest] = limits;
  if (limit === undefined) return sum === 0 ? [[]] : [];
  const room = rest.reduce((total, one) => total + one, 0);
  const result: number[][] = [];
  for (let first = Math.max(0, sum - room); first <= Math.min(sum, limit); first++)
    for (const others of countVectors(sum - first, rest)) result.push([first, ...others]);
  return result;
}

/** For each way to give n1 of the coupons to the first group, the exact two-sided p among all those ways. */
function conditionalPValues(totals: readonly number[], n1: number) {
  let below = 0;
  // Twice the midrank of each class.
  const ranks = totals.map((total) => {
    below += total;
    return 2 * below - total + 1;
  });
  const mean = n1 * (below + 1);
  const ways = countVectors(n1, totals).map((counts) => ({
    counts,
    distance: Math.abs(counts.reduce((sum, count, at) => sum + count * ranks[at]!, 0) - mean),
    share: Math.exp(counts.reduce((sum, count, at) => sum + logChoose(totals[at]!, count), 0) - logChoose(below, n1)),
  }));
  const byDistance = new Map<number, number>();
  for (const { distance, share } of ways) byDistance.set(distance, (byDistance.get(distance) ?? 0) + share);
  const p = new Map<number, number>();
  let farther = 0;
  for (const [distance, share] of [...byDistance].sort((a, b) => b[0] - a[0])) {
    farther += share;
    p.set(distance, farther);
  }
  return ways.map(({ counts, distance }) => ({ counts, p: p.get(distance)! }));
}

function logChoose(n: number, k: number): number {
  return logFactorial(n) - logFactorial(k) - logFactorial(n - k);
}

function multinomial(counts: readonly number[], probabilities: readonly number[]): number {
  let ways = logFactorial(counts.reduce((sum, count) => sum + count, 0));
  let product = 1;
  for (const [at, count] of counts.entries()) {
    ways -= logFactorial(count);
    product *= probabilities[at]! ** count;
  }
  return product * Math.exp(ways);
}
