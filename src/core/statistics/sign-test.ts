/** In how many pairs was the one better? */
import { signSums, tails } from "./exact-distribution.ts";
import { requireValues } from "./value-list.ts";

/**
 * Exact sign test of paired differences.
 *
 * Method   comparison.signTest
 * Formula  positives among the non-zero differences against the binomial distribution with chance 1/2
 * Units    any; counts and shares; midP = farther + half of equally far
 * Source   binomial distribution; zeros dropped
 * Status   computed
 * Holds    whatever the size of the differences; five pairs can only reach 0.0625
 * Refuses  no differences, one that is not finite
 */
export function signTest({ differences }: { differences: number[] }) {
  requireValues("differences", differences);
  const positives = differences.filter((difference) => difference > 0).length;
  const negatives = differences.filter((difference) => difference < 0).length;
  const used = positives + negatives;
  const shares = tails(signSums(Array.from({ length: used }, () => 1)), positives, { total: used, parts: 2 });
  return { positives, negatives, zeros: differences.length - used, ...shares };
}
