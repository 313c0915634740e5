/** How large the difference in a pair is: the middle of all means of two differences. */
import { requireFraction } from "../input-error.ts";
import { signSums } from "./exact-distribution.ts";
import { medianWithInterval } from "./hodges-lehmann.ts";
import { requireValues } from "./value-list.ts";

/**
 * Hodges-Lehmann estimate of paired differences.
 *
 * Method   comparison.hodgesLehmannPaired
 * Formula  estimate = median of the n (n + 1) / 2 Walsh averages (d_i + d_j) / 2; interval from the k-th and the k-th last, k the
 *          largest with P(V <= k - 1) <= (1 - confidence) / 2 in the signed-rank distribution without ties
 * Units    of the differences; confidence and achievedConfidence fractions
 * Source   Hodges and Lehmann 1963
 * Status   computed
 * Holds    for differences that scatter evenly about their middle; zeros stay in. Out of reach (5 pairs at 95 %): ends null,
 *          achievedConfidence the most attainable
 * Refuses  no differences, one that is not finite, a confidence not between 0 and 1
 */
export function hodgesLehmannPaired({ differences, confidence }: { differences: number[]; confidence: number }) {
  requireValues("differences", differences);
  requireFraction("confidence", confidence);
  const averages = differences.flatMap((one, at) => differences.slice(at).map((other) => (one + other) / 2));
  return medianWithInterval(averages, signSums(differences.map((_, at) => at + 1)), confidence);
}
