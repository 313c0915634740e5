/** How completely two groups are apart, from -1 to 1. */
import { requireValues } from "./value-list.ts";

/**
 * Cliff's delta and the chance that a coupon of the first group stands higher than one of the second.
 *
 * Method   comparison.cliffsDelta
 * Formula  delta = (pairs with first > second - pairs with first < second) / (n1 n2); superiority = (delta + 1) / 2
 * Units    any, the same in both groups; delta -1 to 1, superiority 0 to 1
 * Source   Cliff 1993
 * Status   computed
 * Holds    as a size only: 1 with 3 against 3 is still an exact p of 0.1
 * Refuses  an empty group, a value that is not finite
 */
export function cliffsDelta({ first, second }: { first: number[]; second: number[] }) {
  requireValues("first", first);
  requireValues("second", second);
  let balance = 0;
  for (const a of first) for (const b of second) balance += Math.sign(a - b);
  const delta = balance / (first.length * second.length);
  return { delta, superiority: (delta + 1) / 2 };
}
