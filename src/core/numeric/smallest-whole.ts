/**
 * Quantiles of counts.
 *
 * Units    counts
 * Source   definition of a quantile of counts
 * Status   common practice
 */
import type { Tail } from "./distribution-question.ts";

/** A probability that differs from the asked one by rounding only counts as reached. */
const slack = 1e-13;

/** The smallest whole number of a range whose cdf reaches p, or whose sf does not pass it. */
export function smallestWhole(
  from: number,
  to: number,
  asked: { p: number; tail: Tail; cdf: (count: number) => number; sf: (count: number) => number },
): number {
  const reached = (count: number) =>
    asked.tail === "lower" ? asked.cdf(count) >= asked.p * (1 - slack) : asked.sf(count) <= asked.p * (1 + slack);
  let low = from;
  let high = to;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (reached(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
