/** The normal distribution. */
import stdlibNormalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { requireFinite, requirePositive } from "../input-error.ts";
import { answer, type DistributionQuestion, requireQuantileOf, type Tail } from "./distribution-question.ts";

/**
 * Probabilities, their logarithms and quantiles of the normal distribution.
 *
 * Method   distribution.normal
 * Formula  cdf = erfc(-z / √2) / 2 with z = (x - mean) / sd; quantile by Wichura's rational functions
 * Units    x in the units of mean and sd; p as a fraction
 * Source   definition; quantile AS 241 (Wichura 1988)
 * Status   computed
 * Holds    in both tails to about 13 digits; logarithms also where the tail itself is below the smallest number
 * Refuses  sd of 0 or less; p of 0 or 1, whose quantile is not finite
 */
export function normalDistribution(question: DistributionQuestion & { mean?: number; sd?: number }): { value: number } {
  const { mean = 0, sd = 1 } = question;
  requireFinite("mean", mean);
  requirePositive("sd", sd);
  return answer(question, {
    cdf: (x) => normalCdf((x - mean) / sd),
    sf: (x) => normalSf((x - mean) / sd),
    logCdf: (x) => normalLogCdf((x - mean) / sd),
    logSf: (x) => normalLogSf((x - mean) / sd),
    quantile: (p, tail) => mean + sd * normalQuantile(p, tail),
  });
}

/** Density of the standard normal distribution. */
export function normalPdf(z: number): number {
  return Math.exp(-0.5 * z * z) * 0.3989422804014327;
}

/** P(Z <= z), standard normal. */
export function normalCdf(z: number): number {
  return stdlibNormalCdf(z, 0, 1);
}

/** P(Z > z), standard normal, with the digits of the tail. */
export function normalSf(z: number): number {
  return stdlibNormalCdf(-z, 0, 1);
}

/** ln P(Z <= z). */
export function normalLogCdf(z: number): number {
  if (z > 0) return Math.log1p(-normalSf(z));
  return z > -30 ? Math.log(normalCdf(z)) : logFarTail(-z);
}

/** ln P(Z > z). */
export function normalLogSf(z: number): number {
  return normalLogCdf(-z);
}

/** ln of the tail beyond z >= 30: the density times Laplace's continued fraction. */
function logFarTail(z: number): number {
  let fraction = z;
  for (let n = 20; n >= 1; n--) fraction = z + n / fraction;
  return -0.5 * z * z - 0.9189385332046728 - Math.log(fraction);
}

/** The z with P(Z <= z) = p (tail "lower", the default) or P(Z > z) = p ("upper"); p strictly between 0 and 1. */
export function normalQuantile(p: number, tail: Tail = "lower"): number {
  requireQuantileOf(p, tail, [0, 1]);
  const z = lowerQuantile(p);
  return tail === "lower" ? z : -z;
}

// AS 241, PPND16: numerators and denominators, constant term first.
const central = {
  top: [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.693765509461, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  bottom: [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852545,
  ],
};
const outer = {
  top: [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  bottom: [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
};
const far = {
  top: [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  bottom: [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
};

function lowerQuantile(p: number): number {
  const centred = p - 0.5;
  if (Math.abs(centred) <= 0.425) return centred * ratio(central, 0.180625 - centred * centred);
  const depth = Math.sqrt(-Math.log(Math.min(p, 1 - p)));
  const distance = depth <= 5 ? ratio(outer, depth - 1.6) : ratio(far, depth - 5);
  return centred < 0 ? -distance : distance;
}

function ratio({ top, bottom }: { top: readonly number[]; bottom: readonly number[] }, at: number): number {
  return polynomial(top, at) / polynomial(bottom, at);
}

function polynomial(coefficients: readonly number[], at: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * at + coefficient, 0);
}
