/**
 * The masses that maximise sum of count * ln(mass of the span): a few rounds of EM, then Newton steps that keep each mass at 0 or above.
 * EM alone is safe but slow where a mass goes to 0; a small change of the likelihood says nothing about the masses.
 *
 * Units    none (shares)
 * Source   Turnbull 1976 (EM); Wang 2008 (Newton steps); the result is held against the conditions of the maximum
 * Status   computed
 */
import { leastSquaresNotNegative } from "./not-negative.ts";
import type { CountedSpan } from "./turnbull-cells.ts";

const emRounds = 5;
const newtonRounds = 200;
/** Largest miss of the optimality conditions, relative to the number of coupons. */
const accepted = 1e-10;

/** Masses of all cells (sum 1) and the log-likelihood there. */
export function maximalMasses(spans: readonly CountedSpan[], cells: number) {
  const coupons = spans.reduce((sum, one) => sum + one.count, 0);
  let masses = new Float64Array(cells).fill(1 / cells);
  // Looks of a common calendar do not overlap: the shares themselves.
  if (spans.every((one) => one.first === one.last))
    for (const { first, count } of spans) masses[first] = count / coupons;
  else if (cells > 1) {
    for (let round = 0; round < emRounds; round++) masses = emStep(spans, masses, coupons);
    masses = newtonFinish(spans, masses, coupons);
  }
  return { masses, logLikelihood: logLikelihood(spans, masses) };
}

function emStep(spans: readonly CountedSpan[], masses: Float64Array<ArrayBuffer>, coupons: number) {
  return derivatives(spans, masses).map((derivative, at) => (masses[at]! * derivative) / coupons);
}

function massInside({ first, last }: CountedSpan, masses: Float64Array): number {
  let sum = 0;
  for (let at = first; at <= last; at++) sum += masses[at]!;
  return sum;
}

function logLikelihood(spans: readonly CountedSpan[], masses: Float64Array): number {
  return spans.reduce((sum, one) => sum + one.count * Math.log(massInside(one, masses)), 0);
}

/** d_j = sum over coupons of inside / mass: n in each cell in use, at most n elsewhere, when the masses are right. */
function derivatives(spans: readonly CountedSpan[], masses: Float64Array) {
  const result = new Float64Array(masses.length);
  for (const one of spans) {
    const share = one.count / massInside(one, masses);
    for (let at = one.first; at <= one.last; at++) result[at]! += share;
  }
  return result;
}

/**
 * Maximises the log-likelihood less n times the sum of the masses, which is the same with the sum left free (Wang 2008). Each
 * round replaces it by its parabola, finds the top of that over all masses of 0 or above, and goes there or part of the way.
 */
function newtonFinish(spans: readonly CountedSpan[], start: Float64Array<ArrayBuffer>, coupons: number) {
  let masses = start;
  for (let round = 0; round < newtonRounds; round++) {
    const derivative = derivatives(spans, masses);
    if (optimalityMiss(masses, derivative, coupons) <= accepted * coupons) return normalised(masses);
    // The parabola's curvature times the present masses is the derivative itself, hence 2 d - n.
    const target = derivative.map((slope) => 2 * slope - coupons);
    const top = leastSquaresNotNegative(curvature(spans, masses), target, masses);
    const next = climbed(spans, masses, top, coupons);
    if (next === null) break;
    masses = next;
  }
  // What rounding leaves is checked once more, less strictly, before it is believed.
  const miss = optimalityMiss(masses, derivatives(spans, masses), coupons);
  if (miss <= 1e4 * accepted * coupons) return normalised(masses);
  throw new Error("Turnbull's estimate did not settle: a fault of the program, not of the data");
}

function optimalityMiss(masses: Float64Array, derivative: Float64Array, coupons: number): number {
  return derivative.reduce((worst, slope, at) => {
    const excess = slope - coupons;
    return Math.max(worst, masses[at]! > 0 ? Math.abs(excess) : excess);
  }, 0);
}

function normalised(masses: Float64Array<ArrayBuffer>) {
  const sum = masses.reduce((total, mass) => total + mass, 0);
  return masses.map((mass) => mass / sum);
}

/** The whole way to the parabola's top, or half, a quarter... of it until the height rises; null when no step rises. */
function climbed(spans: readonly CountedSpan[], masses: Float64Array<ArrayBuffer>, top: Float64Array, coupons: number) {
  const height = (all: Float64Array) => logLikelihood(spans, all) - coupons * all.reduce((sum, mass) => sum + mass, 0);
  const start = height(masses);
  // Close to the top the rise is below the last digit of the height.
  const level = start - 1e-13 * Math.max(1, Math.abs(start));
  for (let length = 1; length > 1e-9; length /= 2) {
    const next = masses.map((mass, at) => (length === 1 ? top[at]! : mass + length * (top[at]! - mass)));
    if (height(next) >= level) return next;
  }
  return null;
}

/** Minus the second derivatives of the log-likelihood. */
function curvature(spans: readonly CountedSpan[], masses: Float64Array): Float64Array[] {
  const result = Array.from(masses, () => new Float64Array(masses.length));
  for (const one of spans) {
    const weight = one.count / massInside(one, masses) ** 2;
    for (let row = one.first; row <= one.last; row++)
      for (let column = one.first; column <= one.last; column++) result[row]![column]! += weight;
  }
  return result;
}
