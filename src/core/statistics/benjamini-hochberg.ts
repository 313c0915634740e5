/** Many exploratory comparisons at once, under the share of false ones among those found. */
import { requirePValues } from "./p-values.ts";

/**
 * Benjamini and Hochberg's adjusted p.
 *
 * Method   comparison.benjaminiHochberg
 * Formula  from the largest down m / i p_(i), running minimum, at most 1
 * Units    shares, in the order given
 * Source   Benjamini and Hochberg 1995
 * Status   computed
 * Holds    as a screen of many rows; it does not guard against any single false finding, so never for a verdict on a few treatments
 * Refuses  no p, a p outside 0 to 1
 */
export function benjaminiHochberg({ pValues }: { pValues: number[] }) {
  requirePValues("pValues", pValues);
  const order = [...pValues.keys()].sort((a, b) => pValues[b]! - pValues[a]!);
  const m = pValues.length;
  const adjusted = pValues.map(() => 0);
  let smallest = 1;
  for (const [place, at] of order.entries()) {
    smallest = Math.min(smallest, (m / (m - place)) * pValues[at]!);
    adjusted[at] = smallest;
  }
  return { adjusted };
}
