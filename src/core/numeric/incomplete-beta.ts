/** The regularized incomplete beta function, its logarithm far out in the tail, and its inverse. */
import betainc from "@stdlib/math-base-special-betainc";
import { InputError, requireFinite, requirePositive } from "../input-error.ts";
import { logBeta } from "./log-gamma.ts";

/** A point between 0 and 1 as itself and its distance from 1: near 1 only the second keeps its digits. */
export type UnitPoint = { x: number; complement: number };

/**
 * Share of a beta(a, b) variable below and above a point.
 *
 * Method   distribution.regularizedIncompleteBeta
 * Formula  I = integral from 0 to x of t^(a-1) (1-t)^(b-1) dt / B(a, b); complement = 1 - I, from its own expansion
 * Units    x from 0 to 1; a, b above 0
 * Source   NIST DLMF 8.17
 * Status   computed
 * Holds    to about 13 digits of each of the two results
 * Refuses  x outside 0 to 1; a or b of 0 or less
 */
export function regularizedIncompleteBeta({ x, a, b }: { x: number; a: number; b: number }): {
  value: number;
  complement: number;
} {
  requireFinite("x", x);
  if (x < 0 || x > 1) throw new InputError("x", x, "a number from 0 to 1");
  requirePositive("a", a);
  requirePositive("b", b);
  const point = { x, complement: 1 - x };
  return { value: betaLower(point, a, b), complement: betaUpper(point, a, b) };
}

/** Below this the library's front factor underflows piece by piece (seen: 0 for 2e-292); the fraction takes over. */
const libraryGoodTo = 1e-100;

/** I at the point. */
export function betaLower({ x, complement }: UnitPoint, a: number, b: number): number {
  if (x <= 0) return 0;
  if (complement <= 0) return 1;
  if (a === 0.5 && b === 0.5) return arcsineLaw({ x, complement });
  const value = x <= 0.5 ? betainc(x, a, b, true, false) : betainc(complement, b, a, true, true);
  return value > libraryGoodTo ? value : Math.exp(logByFraction({ x, complement }, a, b));
}

/** DLMF 8.17 with a = b = 1/2, in closed form: near 1 the library has only 8 digits of it (seen: 0.9999999905 for 0.9999999936). */
function arcsineLaw({ x, complement }: UnitPoint): number {
  const share = (of: number) => (2 / Math.PI) * Math.asin(Math.sqrt(of));
  return x <= 0.5 ? share(x) : 1 - share(complement);
}

/** 1 - I at the point. */
export function betaUpper({ x, complement }: UnitPoint, a: number, b: number): number {
  return betaLower({ x: complement, complement: x }, b, a);
}

/** ln I at the point; -Infinity at 0. */
export function betaLogLower(point: UnitPoint, a: number, b: number): number {
  const value = betaLower(point, a, b);
  if (value > 0.5) return Math.log1p(-betaUpper(point, a, b));
  if (value > libraryGoodTo) return Math.log(value);
  return point.x <= 0 ? Number.NEGATIVE_INFINITY : logByFraction(point, a, b);
}

/** ln (1 - I) at the point; -Infinity at 1. */
export function betaLogUpper({ x, complement }: UnitPoint, a: number, b: number): number {
  return betaLogLower({ x: complement, complement: x }, b, a);
}

/** ln I by the continued fraction (DLMF 8.17.22), for tails below the smallest number. */
function logByFraction({ x, complement }: UnitPoint, a: number, b: number): number {
  const front = a * Math.log(x) + b * Math.log(complement) - logBeta(a, b) - Math.log(a);
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let fraction = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    let change = 1;
    for (const term of [even, odd]) {
      d = 1 + term * d;
      d = 1 / (Math.abs(d) < tiny ? tiny : d);
      c = 1 + term / c;
      if (Math.abs(c) < tiny) c = tiny;
      change *= c * d;
    }
    fraction *= change;
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return front + Math.log(fraction);
}

/**
 * ln (x / (1 - x)) of the point that leaves `p` in the named tail of beta(a, b); p strictly between 0 and 1.
 * On this scale both tails' logarithms are concave, so Newton's steps cannot run away.
 */
export function betaLogit(p: number, a: number, b: number, tail: "lower" | "upper"): number {
  // The smaller tail keeps its digits; an upper tail is the lower one of beta(b, a), mirrored.
  if (p > 0.5) return betaLogit(1 - p, a, b, tail === "lower" ? "upper" : "lower");
  if (tail === "upper") return -betaLogit(p, b, a, "lower");
  const logP = Math.log(p);
  const beta = logBeta(a, b);
  let logit = (logP + Math.log(a) + beta) / a;
  // So close to 0 the leading term is all there is, and x itself would vanish.
  if (logit < -600) return logit;
  if (logit > 0) logit = Math.log(a / b);
  for (let step = 0; step < 200; step++) {
    const point = pointAt(logit);
    const logTail = betaLogLower(point, a, b);
    const logSlope = a * Math.log(point.x) + b * Math.log(point.complement) - beta - logTail;
    const change = (logTail - logP) / Math.exp(logSlope);
    // Far right of the goal the curve is flat; a bounded step left is enough.
    logit -= Math.min(change, 20);
    // Newton squares the error: after so small a step nothing is left to gain.
    if (Math.abs(change) <= 1e-9 * Math.max(1, Math.abs(logit))) break;
  }
  return logit;
}

/** The point whose logit is given. */
export function pointAt(logit: number): UnitPoint {
  const odds = Math.exp(-Math.abs(logit));
  const small = odds / (1 + odds);
  const large = 1 / (1 + odds);
  return logit < 0 ? { x: small, complement: large } : { x: large, complement: small };
}
