/** The binomial distribution. */
import { InputError, requireWhole } from "../input-error.ts";
import { answer, type DistributionQuestion, requireQuantileOf, type Tail } from "./distribution-question.ts";
import { betaLogLower, betaLower, type UnitPoint } from "./incomplete-beta.ts";
import { stirlingError } from "./log-gamma.ts";
import { smallestWhole } from "./smallest-whole.ts";

/**
 * Probabilities, their logarithms and quantiles of a number of successes in n trials.
 *
 * Method   distribution.binomial
 * Formula  P(X <= k) = I(1 - prob; n - k, k + 1)
 * Units    x, n as counts; prob, p as fractions
 * Source   definition; NIST DLMF 8.17.5
 * Status   computed
 * Holds    in both tails to about 12 digits; a quantile is the smallest count that reaches p
 * Refuses  n that is not whole; prob outside 0 to 1; p outside 0 to 1
 */
export function binomialDistribution(question: DistributionQuestion & { n: number; prob: number }): { value: number } {
  const trials = { n: question.n, prob: question.prob };
  requireTrials(trials);
  return answer(question, {
    cdf: (x) => binomialCdf(x, trials),
    sf: (x) => binomialSf(x, trials),
    logCdf: (x) => logTail(Math.floor(x), trials, "lower"),
    logSf: (x) => logTail(Math.floor(x), trials, "upper"),
    quantile: (p, tail) => binomialQuantile(p, trials, tail),
  });
}

export type Trials = { n: number; prob: number };

function requireTrials({ n, prob }: Trials): void {
  requireWhole("n", n);
  if (typeof prob !== "number" || !(prob >= 0 && prob <= 1)) throw new InputError("prob", prob, "a share from 0 to 1");
}

/** P(X <= x). */
export function binomialCdf(x: number, trials: Trials): number {
  requireTrials(trials);
  const count = Math.floor(x);
  if (count < 0) return 0;
  return count >= trials.n ? 1 : betaLower(failure(trials), trials.n - count, count + 1);
}

/** P(X > x), strictly. */
export function binomialSf(x: number, trials: Trials): number {
  requireTrials(trials);
  const count = Math.floor(x);
  if (count < 0) return 1;
  return count >= trials.n ? 0 : betaLower(success(trials), count + 1, trials.n - count);
}

function logTail(count: number, trials: Trials, tail: Tail): number {
  if (count < 0 || count >= trials.n) return count < 0 === (tail === "upper") ? 0 : Number.NEGATIVE_INFINITY;
  return tail === "lower"
    ? betaLogLower(failure(trials), trials.n - count, count + 1)
    : betaLogLower(success(trials), count + 1, trials.n - count);
}

function success({ prob }: Trials): UnitPoint {
  return { x: prob, complement: 1 - prob };
}

function failure({ prob }: Trials): UnitPoint {
  return { x: 1 - prob, complement: prob };
}

/** The smallest count with P(X <= count) >= p (tail "lower", the default) or P(X > count) <= p ("upper"). */
export function binomialQuantile(p: number, trials: Trials, tail: Tail = "lower"): number {
  requireTrials(trials);
  requireQuantileOf(p, tail, []);
  return smallestWhole(0, trials.n, {
    p,
    tail,
    cdf: (count) => binomialCdf(count, trials),
    sf: (count) => binomialSf(count, trials),
  });
}

/** P(X = count), by Loader's deviance form (2000), which keeps its digits for large n. */
export function binomialPmf(count: number, trials: Trials): number {
  requireTrials(trials);
  const { n, prob } = trials;
  if (!Number.isInteger(count) || count < 0 || count > n) return 0;
  return Math.exp(binomialLogPmf(count, n, prob, 1 - prob));
}

/** ln P(X = count) for a count from 0 to n; prob and its complement are given apart. */
export function binomialLogPmf(count: number, n: number, prob: number, complement: number): number {
  if (prob === 0 || complement === 0) return count === (prob === 0 ? 0 : n) ? 0 : Number.NEGATIVE_INFINITY;
  if (count === 0) return n * (prob < 0.5 ? Math.log1p(-prob) : Math.log(complement));
  if (count === n) return n * (complement < 0.5 ? Math.log1p(-complement) : Math.log(prob));
  const failures = n - count;
  // Stirling's remainder of n! is that of Γ(n): the factor n goes into the leading terms.
  const corrections = stirlingError(n) - stirlingError(count) - stirlingError(failures);
  const deviances = deviance(count, n * prob) + deviance(failures, n * complement);
  return corrections - deviances + 0.5 * Math.log(n / (2 * Math.PI * count * failures));
}

/** x ln(x / mean) + mean - x, without cancellation when the two are close. */
function deviance(x: number, mean: number): number {
  const difference = x - mean;
  if (Math.abs(difference) >= 0.1 * (x + mean)) return x * Math.log(x / mean) + mean - x;
  const v = difference / (x + mean);
  let term = 2 * x * v;
  let sum = difference * v;
  for (let k = 3; ; k += 2) {
    term *= v * v;
    const next = sum + term / k;
    if (next === sum) return sum;
    sum = next;
  }
}
