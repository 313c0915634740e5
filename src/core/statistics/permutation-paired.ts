/** Does a treatment change its partner's value? By turning the signs of the measured differences. */
import { signSums, tails } from "./exact-distribution.ts";
import { mean } from "./moments.ts";
import { requireValues } from "./value-list.ts";
import { wholeValues } from "./whole-values.ts";

/**
 * Exact permutation test of the mean of paired differences.
 *
 * Method   comparison.permutationPaired
 * Formula  exactP = share of the 2^n turns of signs with a sum at least as far from 0 as the observed one; zeros change nothing
 * Units    of the differences; shares
 * Source   Fisher 1935; Pitman 1937
 * Status   computed
 * Holds    when in each pair the treatment was allotted at random
 * Refuses  no differences, one that is not finite, more different sums than a table can hold
 */
export function permutationPaired({ differences }: { differences: number[] }) {
  requireValues("differences", differences);
  const { whole, slack } = wholeValues(differences);
  const total = whole.reduce((sum, value) => sum + Math.abs(value), 0);
  const positive = whole.reduce((sum, value) => sum + Math.max(0, value), 0);
  const distribution = signSums(whole.map(Math.abs), "differences");
  const { midP: _, ...shares } = tails(distribution, positive, { total, parts: 2, slack });
  return { meanDifference: mean(differences), ...shares };
}
