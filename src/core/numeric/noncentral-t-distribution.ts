/** The noncentral t distribution: what power is made of. */
import { requireFinite, requirePositive } from "../input-error.ts";
import { brentRoot } from "./brent.ts";
import { answer, type DistributionQuestion, requireQuantileOf, type Tail } from "./distribution-question.ts";
import { normalLogCdf, normalLogSf, normalQuantile } from "./normal-distribution.ts";
import { logMeanOverScale } from "./scale-mixture.ts";

export type NoncentralT = { df: number; ncp: number };

/**
 * Probabilities, their logarithms and quantiles of (Z + ncp) / sqrt(chi-square / df).
 *
 * Method   distribution.noncentralT
 * Formula  cdf = mean of Φ(x s - ncp) over s = sqrt(chi-square / df), by the trapezoidal rule in ln s
 * Units    x, ncp without unit; df above 0, need not be whole; p as a fraction
 * Source   definition
 * Status   computed
 * Holds    in both tails to about 11 digits
 * Refuses  df of 0 or less; p of 0 or 1, whose quantile is not finite
 */
export function noncentralTDistribution(question: DistributionQuestion & NoncentralT): { value: number } {
  const shape = { df: question.df, ncp: question.ncp };
  requireShape(shape);
  return answer(question, {
    cdf: (x) => noncentralTCdf(x, shape),
    sf: (x) => noncentralTSf(x, shape),
    logCdf: (x) => noncentralTLogCdf(x, shape),
    logSf: (x) => noncentralTLogSf(x, shape),
    quantile: (p, tail) => noncentralTQuantile(p, shape, tail),
  });
}

function requireShape({ df, ncp }: NoncentralT): void {
  requirePositive("df", df);
  requireFinite("ncp", ncp);
}

/** P(T <= x). */
export function noncentralTCdf(x: number, shape: NoncentralT): number {
  return Math.exp(noncentralTLogCdf(x, shape));
}

/** P(T > x). */
export function noncentralTSf(x: number, shape: NoncentralT): number {
  return Math.exp(noncentralTLogSf(x, shape));
}

/** ln P(T <= x). */
export function noncentralTLogCdf(x: number, { df, ncp }: NoncentralT): number {
  return noncentralTLogSf(-x, { df, ncp: -ncp });
}

/** ln P(T > x). */
export function noncentralTLogSf(x: number, shape: NoncentralT): number {
  requireShape(shape);
  requireFinite("x", x);
  const upper = logTail(x, shape, normalLogSf);
  // Close to 1 the upper tail is the rest of the lower one.
  return upper < -0.7 ? upper : Math.log1p(-Math.exp(logTail(x, shape, normalLogCdf)));
}

function logTail(x: number, { df, ncp }: NoncentralT, logSide: (z: number) => number): number {
  // Where the normal exponent and the chi density pull alike: df (1 - s²) = x s (x s - ncp).
  const pull = x * ncp;
  const startAt = (pull + Math.sqrt(pull * pull + 4 * df * (df + x * x))) / (2 * (df + x * x));
  return logMeanOverScale(df, (s) => logSide(x * s - ncp), {
    startAt: Math.max(startAt, 1e-8),
    sharpness: ncp * ncp + (x * startAt) ** 2,
  });
}

/** The x with P(T <= x) = p (tail "lower", the default) or P(T > x) = p ("upper"); p strictly between 0 and 1. */
export function noncentralTQuantile(p: number, shape: NoncentralT, tail: Tail = "lower"): number {
  requireShape(shape);
  requireQuantileOf(p, tail, [0, 1]);
  if (p > 0.5) return noncentralTQuantile(1 - p, shape, tail === "lower" ? "upper" : "lower");
  const logP = Math.log(p);
  const tailAt = tail === "lower" ? noncentralTLogCdf : noncentralTLogSf;
  const excess = (x: number) => tailAt(x, shape) - logP;
  const outwards = tail === "lower" ? -1 : 1;
  const start = shape.ncp + normalQuantile(p, tail);
  let near = start;
  let far = start;
  let stride = 1;
  while (excess(far) > 0) {
    near = far;
    far += outwards * stride;
    stride *= 2;
  }
  for (stride = 1; excess(near) < 0; stride *= 2) near -= outwards * stride;
  return near === far ? near : brentRoot(excess, near, far, 1e-13 * Math.abs(start));
}
