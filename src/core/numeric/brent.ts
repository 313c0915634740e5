/**
 * Roots and minima of a function of one number, without derivatives (Brent 1973).
 *
 * Units    those of the caller's function
 * Source   Brent, Algorithms for Minimization Without Derivatives, 1973, chapters 4 and 5
 * Status   memory
 */
import { InputError } from "../input-error.ts";

/**
 * The zero between two ends at which `f` has different signs, to `tolerance` (absolute, in x) plus rounding.
 * Refuses ends of one sign.
 */
export function brentRoot(f: (x: number) => number, from: number, to: number, tolerance = 0): number {
  let a = from;
  let b = to;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa < 0 !== fb < 0) || Number.isNaN(fa + fb)) throw new InputError("to", to, "an end with the other sign");
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let round = 0; round < 300; round++) {
    if (fb < 0 === fc < 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const fine = 2 * Number.EPSILON * Math.abs(b) + 0.5 * tolerance;
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= fine || fb === 0) return b;
    const inside = interpolated({ a, b, c, fa, fb, fc });
    const useful =
      Math.abs(before) >= fine &&
      Math.abs(fa) > Math.abs(fb) &&
      inside * half > 0 &&
      Math.abs(inside) < Math.min(1.5 * Math.abs(half) - 0.5 * fine, 0.5 * Math.abs(before));
    before = useful ? step : half;
    step = useful ? inside : half;
    a = b;
    fa = fb;
    b += Math.abs(step) > fine ? step : Math.sign(half) * fine;
    fb = f(b);
  }
  return b;
}

/** The step from b to where the parabola (or chord) through the points is zero. */
function interpolated(points: { a: number; b: number; c: number; fa: number; fb: number; fc: number }): number {
  const { a, b, c, fa, fb, fc } = points;
  const s = fb / fa;
  if (a === c) return ((c - b) * s) / (s - 1);
  const q = fa / fc;
  const r = fb / fc;
  const top = s * ((c - b) * q * (q - r) - (b - a) * (r - 1));
  return -top / ((q - 1) * (r - 1) * (s - 1));
}

const golden = 0.3819660112501051;

/** Where `f` is least between two ends, and its value there; one valley is assumed. */
export function brentMinimum(
  f: (x: number) => number,
  from: number,
  to: number,
  tolerance = 1e-10,
): { x: number; value: number } {
  let [low, high] = [Math.min(from, to), Math.max(from, to)];
  let x = low + golden * (high - low);
  let fx = f(x);
  let [w, v] = [x, x];
  let [fw, fv] = [fx, fx];
  let step = 0;
  let before = 0;
  for (let round = 0; round < 300; round++) {
    const middle = 0.5 * (low + high);
    const fine = 1e-9 * Math.abs(x) + tolerance / 3;
    if (Math.abs(x - middle) <= 2 * fine - 0.5 * (high - low)) break;
    const inside = Math.abs(before) > fine ? parabolaStep({ x, w, v, fx, fw, fv }) : Number.NaN;
    if (Math.abs(inside) < 0.5 * Math.abs(before) && x + inside > low && x + inside < high) {
      before = step;
      step = inside;
      if (x + step - low < 2 * fine || high - x - step < 2 * fine) step = x < middle ? fine : -fine;
    } else {
      before = x < middle ? high - x : low - x;
      step = golden * before;
    }
    const u = x + (Math.abs(step) >= fine ? step : Math.sign(step) * fine);
    const fu = f(u);
    if (fu <= fx) {
      if (u < x) high = x;
      else low = x;
      [v, fv, w, fw, x, fx] = [w, fw, x, fx, u, fu];
    } else {
      if (u < x) low = u;
      else high = u;
      if (fu <= fw || w === x) [v, fv, w, fw] = [w, fw, u, fu];
      else if (fu <= fv || v === x || v === w) [v, fv] = [u, fu];
    }
  }
  return { x, value: fx };
}

/** The step from x to the lowest point of the parabola through three points; not a number when they lie in line. */
function parabolaStep(points: { x: number; w: number; v: number; fx: number; fw: number; fv: number }): number {
  const { x, w, v, fx, fw, fv } = points;
  const r = (x - w) * (fx - fv);
  const q = (x - v) * (fx - fw);
  return -((x - v) * q - (x - w) * r) / (2 * (q - r));
}
