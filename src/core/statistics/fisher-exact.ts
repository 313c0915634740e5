/** Two groups, two outcomes: Fisher's exact test and the odds ratio. */
import { InputError, requireFraction } from "../input-error.ts";
import { brentRoot } from "../numeric/brent.ts";
import {
  type Draw,
  hypergeometricCdf,
  hypergeometricLogPmf,
  hypergeometricRange,
  hypergeometricSf,
} from "../numeric/hypergeometric-distribution.ts";
import { equallyLikely, requireTwoByTwo, type TwoByTwo } from "./count-table.ts";

/**
 * Fisher's exact test with the conditional odds ratio and its limits.
 *
 * Method   proportion.fisherExact
 * Formula  p = sum of the table probabilities not above the observed one (relative tolerance 1e-7); odds ratio by conditional
 *          maximum likelihood; each limit from the one-sided test at half the error
 * Units    counts in; rows are groups, columns outcomes; confidence as a fraction
 * Source   Fisher 1935; Cornfield 1956 for the limits
 * Status   computed
 * Holds    for coupons treated separately. oddsRatio and upper are null where they are not finite; with an outcome that
 *          nobody had p is 1 and there is no odds ratio
 * Refuses  a table that is not 2 x 2; a group without coupons; a confidence not between 0 and 1
 */
export function fisherExact({ table, confidence }: { table: TwoByTwo; confidence: number }): {
  p: number;
  pLess: number;
  pGreater: number;
  oddsRatio: number | null;
  lower: number;
  upper: number | null;
} {
  requireTwoByTwo("table", table);
  requireFraction("confidence", confidence);
  for (const [at, row] of table.entries())
    if (row[0] + row[1] === 0) throw new InputError(`table[${at}]`, row, "a group with at least one coupon");
  const first = table[0][0];
  const draw = {
    population: table[0][0] + table[0][1] + table[1][0] + table[1][1],
    successes: table[0][0] + table[1][0],
    draws: table[0][0] + table[0][1],
  };
  return {
    p: twoSided(first, draw),
    pLess: hypergeometricCdf(first, draw),
    pGreater: hypergeometricSf(first - 1, draw),
    ...conditionalOddsRatio(first, draw, (1 - confidence) / 2),
  };
}

function twoSided(first: number, draw: Draw): number {
  const logs = logProbabilities(draw);
  const observed = hypergeometricLogPmf(first, draw) + Math.log1p(equallyLikely);
  const counted = logs.filter((log) => log <= observed);
  return counted.length === logs.length
    ? 1
    : Math.min(
        1,
        counted.reduce((sum, log) => sum + Math.exp(log), 0),
      );
}

/** ln of the probability of each possible first cell, from the least on. */
function logProbabilities(draw: Draw): number[] {
  const { least, most } = hypergeometricRange(draw);
  return Array.from({ length: most - least + 1 }, (_, at) => hypergeometricLogPmf(least + at, draw));
}

function conditionalOddsRatio(first: number, draw: Draw, side: number) {
  const { least, most } = hypergeometricRange(draw);
  if (least === most) return { oddsRatio: null, lower: 0, upper: null };
  const logs = logProbabilities(draw);
  /** Mean of the first cell, and its chances of at least and at most the observed one, when the odds ratio is exp(logOdds). */
  const at = (logOdds: number) => {
    const tilted = logs.map((log, k) => log + k * logOdds);
    const top = Math.max(...tilted);
    const weights = tilted.map((log) => Math.exp(log - top));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const share = (from: number, to: number) =>
      weights.slice(from, to).reduce((sum, weight) => sum + weight, 0) / total;
    return {
      mean: weights.reduce((sum, weight, k) => sum + weight * k, 0) / total,
      atLeast: share(first - least, weights.length),
      atMost: share(0, first - least + 1),
    };
  };
  const solved = (excess: (logOdds: number) => number) => Math.exp(risingRoot(excess));
  return {
    oddsRatio: first === most ? null : first === least ? 0 : solved((log) => at(log).mean - (first - least)),
    lower: first === least ? 0 : solved((log) => Math.log(at(log).atLeast / side)),
    upper: first === most ? null : solved((log) => -Math.log(at(log).atMost / side)),
  };
}

/** Root of a rising function of the log odds ratio, bracketed outwards from 0. */
function risingRoot(excess: (logOdds: number) => number): number {
  let low = -1;
  let high = 1;
  while (excess(low) > 0) low *= 2;
  while (excess(high) < 0) high *= 2;
  return brentRoot(excess, low, high, 1e-13);
}
