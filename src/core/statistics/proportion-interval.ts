/** Intervals of a share by beta quantiles. */
import { betaQuantile } from "../numeric/beta-distribution.ts";
import { type Counted, requireCounted, type ShareInterval } from "./wilson-interval.ts";

/**
 * Exact interval of a proportion: never less sure than it says.
 *
 * Method   proportion.clopperPearson
 * Formula  lower = beta quantile of (1-c)/2 with (x, n-x+1); upper = of 1-(1-c)/2 with (x+1, n-x)
 * Units    counts in; fractions from 0 to 1 out
 * Source   Clopper and Pearson 1934
 * Status   computed
 * Holds    for separate trials; no success is a bound, not a zero
 * Refuses  counts that are not whole; more successes than trials; no trials; a confidence not between 0 and 1
 */
export function clopperPearson(counted: Counted): ShareInterval {
  requireCounted(counted);
  const { successes, trials } = counted;
  const side = (1 - counted.confidence) / 2;
  return {
    lower: successes === 0 ? 0 : betaQuantile(side, { a: successes, b: trials - successes + 1 }),
    upper: successes === trials ? 1 : betaQuantile(side, { a: successes + 1, b: trials - successes }, "upper"),
  };
}

/**
 * Interval of a proportion from an even prior: shorter than the exact one, right on average.
 *
 * Method   proportion.jeffreys
 * Formula  beta quantiles of (1-c)/2 and 1-(1-c)/2 with (x + 1/2, n - x + 1/2); 0 at no success, 1 at all
 * Units    counts in; fractions from 0 to 1 out
 * Source   Brown, Cai and DasGupta 2001
 * Status   computed
 * Holds    for separate trials
 * Refuses  counts that are not whole; more successes than trials; no trials; a confidence not between 0 and 1
 */
export function jeffreys(counted: Counted): ShareInterval {
  requireCounted(counted);
  const { successes, trials } = counted;
  const side = (1 - counted.confidence) / 2;
  const shape = { a: successes + 0.5, b: trials - successes + 0.5 };
  return {
    lower: successes === 0 ? 0 : betaQuantile(side, shape),
    upper: successes === trials ? 1 : betaQuantile(side, shape, "upper"),
  };
}
