/** The hypergeometric distribution: marked items in a draw without replacement. */
import { InputError, requireWhole } from "../input-error.ts";
import { binomialLogPmf } from "./binomial-distribution.ts";
import { answer, type DistributionQuestion, requireQuantileOf, type Tail } from "./distribution-question.ts";
import { smallestWhole } from "./smallest-whole.ts";

export type Draw = { population: number; successes: number; draws: number };

/**
 * Probabilities, their logarithms and quantiles of the number of marked items drawn.
 *
 * Method   distribution.hypergeometric
 * Formula  P(X = k) = C(successes, k) C(population - successes, draws - k) / C(population, draws)
 * Units    x, population, successes, draws as counts; p as a fraction
 * Source   definition; single probabilities in the deviance form of Loader 2000
 * Status   computed
 * Holds    in both tails to about 12 digits; a quantile is the smallest count that reaches p
 * Refuses  counts that are not whole; more successes or draws than the population; p outside 0 to 1
 */
export function hypergeometricDistribution(question: DistributionQuestion & Draw): { value: number } {
  const { population, successes, draws } = question;
  const draw = { population, successes, draws };
  requireDraw(draw);
  return answer(question, {
    cdf: (x) => hypergeometricCdf(x, draw),
    sf: (x) => hypergeometricSf(x, draw),
    logCdf: (x) => logShare(Math.floor(x), draw, "lower"),
    logSf: (x) => logShare(Math.floor(x), draw, "upper"),
    quantile: (p, tail) => hypergeometricQuantile(p, draw, tail),
  });
}

function requireDraw({ population, successes, draws }: Draw): void {
  requireWhole("population", population);
  requireWhole("successes", successes);
  requireWhole("draws", draws);
  if (successes > population) throw new InputError("successes", successes, `at most the population, ${population}`);
  if (draws > population) throw new InputError("draws", draws, `at most the population, ${population}`);
}

/** The counts that can be drawn at all. */
export function hypergeometricRange({ population, successes, draws }: Draw): { least: number; most: number } {
  return { least: Math.max(0, draws - (population - successes)), most: Math.min(draws, successes) };
}

/** ln P(X = count) for a count within the range. */
export function hypergeometricLogPmf(count: number, { population, successes, draws }: Draw): number {
  if (population === 0 || draws === 0 || draws === population) return 0;
  const share = draws / population;
  const rest = (population - draws) / population;
  return (
    binomialLogPmf(count, successes, share, rest) +
    binomialLogPmf(draws - count, population - successes, share, rest) -
    binomialLogPmf(draws, population, share, rest)
  );
}

/** P(X <= x). */
export function hypergeometricCdf(x: number, draw: Draw): number {
  requireDraw(draw);
  return Math.exp(logShare(Math.floor(x), draw, "lower"));
}

/** P(X > x), strictly. */
export function hypergeometricSf(x: number, draw: Draw): number {
  requireDraw(draw);
  return Math.exp(logShare(Math.floor(x), draw, "upper"));
}

/** ln P(X <= count) or ln P(X > count). The side away from the bulk is summed, the other is the rest of 1. */
function logShare(count: number, draw: Draw, tail: Tail): number {
  const { least, most } = hypergeometricRange(draw);
  if (count < least || count >= most) return count < least === (tail === "upper") ? 0 : Number.NEGATIVE_INFINITY;
  const mean = (draw.draws * draw.successes) / draw.population;
  const summed: Tail = count < mean ? "lower" : "upper";
  const logSum = summed === "lower" ? logSumOutwards(count, least, draw) : logSumOutwards(count + 1, most, draw);
  return summed === tail ? logSum : Math.log1p(-Math.exp(logSum));
}

/** ln of the probabilities from one count to an end of the range, each from its neighbour by their ratio. */
function logSumOutwards(from: number, end: number, draw: Draw): number {
  const step = end < from ? -1 : 1;
  let term = 1;
  let sum = 1;
  for (let count = from; count !== end; count += step) {
    term *= step > 0 ? ratioUp(count, draw) : 1 / ratioUp(count - 1, draw);
    sum += term;
    if (term < 1e-18 * sum) break;
  }
  return hypergeometricLogPmf(from, draw) + Math.log(sum);
}

/** P(X = count + 1) / P(X = count). */
function ratioUp(count: number, { population, successes, draws }: Draw): number {
  return ((successes - count) * (draws - count)) / ((count + 1) * (population - successes - draws + count + 1));
}

/** The smallest count with P(X <= count) >= p (tail "lower", the default) or P(X > count) <= p ("upper"). */
export function hypergeometricQuantile(p: number, draw: Draw, tail: Tail = "lower"): number {
  requireDraw(draw);
  requireQuantileOf(p, tail, []);
  const { least, most } = hypergeometricRange(draw);
  return smallestWhole(least, most, {
    p,
    tail,
    cdf: (count) => hypergeometricCdf(count, draw),
    sf: (count) => hypergeometricSf(count, draw),
  });
}
