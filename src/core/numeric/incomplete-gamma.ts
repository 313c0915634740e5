/**
 * The regularized incomplete gamma function: tails, their logarithms, and the inverse.
 *
 * Units    none (probabilities)
 * Source   NIST DLMF 8.11 (series) and 8.9 (continued fraction); the library's gammainc where it keeps its digits
 * Status   memory
 */
import gammainc from "@stdlib/math-base-special-gammainc";
import { logGamma } from "./log-gamma.ts";

/** Below this the library loses digits (seen: the fourth one at 2e-254); series and fraction take over. */
const libraryGoodTo = 1e-100;

/** Share of a gamma variable of this shape and scale 1 below x. */
export function gammaLower(x: number, shape: number): number {
  if (x <= 0) return 0;
  const value = gammainc(x, shape, true, false);
  return value > libraryGoodTo ? value : Math.exp(logLowerBySeries(x, shape));
}

/** Share above x. */
export function gammaUpper(x: number, shape: number): number {
  if (x <= 0) return 1;
  const value = gammainc(x, shape, true, true);
  return value > libraryGoodTo ? value : Math.exp(logUpperByFraction(x, shape));
}

/** ln of the share below x; -Infinity at 0. */
export function gammaLogLower(x: number, shape: number): number {
  if (x <= 0) return Number.NEGATIVE_INFINITY;
  const value = gammaLower(x, shape);
  if (value > 0.5) return Math.log1p(-gammaUpper(x, shape));
  return value > libraryGoodTo ? Math.log(value) : logLowerBySeries(x, shape);
}

/** ln of the share above x. */
export function gammaLogUpper(x: number, shape: number): number {
  if (x <= 0) return 0;
  const value = gammaUpper(x, shape);
  if (value > 0.5) return Math.log1p(-gammaLower(x, shape));
  return value > libraryGoodTo ? Math.log(value) : logUpperByFraction(x, shape);
}

/** DLMF 8.11.4: the sum x^n / (shape+1)...(shape+n). */
function logLowerBySeries(x: number, shape: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; n < 10_000 && term > 1e-17 * sum; n++) {
    term *= x / (shape + n);
    sum += term;
  }
  return shape * Math.log(x) - x - logGamma(shape + 1) + Math.log(sum);
}

/** DLMF 8.9.2, for x far above the shape. */
function logUpperByFraction(x: number, shape: number): number {
  let b = x + 1 - shape;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 10_000; n++) {
    const a = -n * (n - shape);
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return shape * Math.log(x) - x - logGamma(shape) + Math.log(fraction);
}

/** The x that leaves `p` in the named tail; p strictly between 0 and 1. */
export function gammaPoint(p: number, shape: number, tail: "lower" | "upper"): number {
  if (p > 0.5) return gammaPoint(1 - p, shape, tail === "lower" ? "upper" : "lower");
  const logP = Math.log(p);
  const logOfGamma = logGamma(shape);
  // In ln x both tails' logarithms are concave: Newton's steps approach from one side.
  let logX = tail === "lower" ? (logP + Math.log(shape) + logOfGamma) / shape : Math.log(shape - logP);
  // So close to 0 the leading term is all there is.
  if (tail === "lower" && logX < -600) return Math.exp(logX);
  if (tail === "lower" && logX > Math.log(shape)) logX = Math.log(shape);
  for (let step = 0; step < 200; step++) {
    const x = Math.exp(logX);
    const logTail = tail === "lower" ? gammaLogLower(x, shape) : gammaLogUpper(x, shape);
    const slope = Math.exp(shape * logX - x - logOfGamma - logTail);
    const change = (logTail - logP) / (tail === "lower" ? slope : -slope);
    logX -= Math.sign(change) * Math.min(Math.abs(change), 20);
    // Newton squares the error: after so small a step nothing is left to gain.
    if (Math.abs(change) <= 1e-9 * Math.max(1, Math.abs(logX))) break;
  }
  return Math.exp(logX);
}
