/** Several comparisons at once, under the chance of any false finding. */
import { holmAdjusted } from "./holm-adjusted.ts";
import { requirePValues } from "./p-values.ts";

/**
 * Holm's adjusted p.
 *
 * Method   comparison.holm
 * Formula  in ascending order (m - i + 1) p_(i), running maximum, at most 1
 * Units    shares, in the order given
 * Source   Holm 1979
 * Status   computed
 * Holds    whatever the comparisons have to do with one another
 * Refuses  no p, a p outside 0 to 1
 */
export function holm({ pValues }: { pValues: number[] }) {
  requirePValues("pValues", pValues);
  return { adjusted: holmAdjusted(pValues) };
}
