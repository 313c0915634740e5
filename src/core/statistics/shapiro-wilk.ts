/** Whether values look normal. */
import { InputError } from "../input-error.ts";
import { normalQuantile, normalSf } from "../numeric/normal-distribution.ts";
import { mean, requireScatter, sum, sumOfSquares } from "./moments.ts";
import { requireValues } from "./value-list.ts";

// Royston 1995, algorithm AS R94: polynomial coefficients, constant term first.
const lastWeight = [0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056];
const lastButOneWeight = [0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633];
const smallShift = [-2.273, 0.459];
const smallMean = [0.544, -0.39978, 0.025054, -6.714e-4];
const smallLogSd = [1.3822, -0.77857, 0.062767, -0.0020322];
const largeMean = [-1.5861, -0.31082, -0.083751, 0.0038915];
const largeLogSd = [-0.4803, -0.082676, 0.0030302];

/**
 * Shapiro and Wilk's test of normality.
 *
 * Method   means.shapiroWilk
 * Formula  w = (Σ weight x ordered value)² / Σ (value - mean)²; p from a normal approximation to ln(1 - w)
 * Units    any
 * Source   Royston 1995, algorithm AS R94
 * Status   computed
 * Holds    for 3 to 5000 values; a handful looks normal whatever it is, so a large p shows nothing
 * Refuses  fewer than 3 or more than 5000 values; no scatter
 */
export function shapiroWilk({ values }: { values: number[] }): { w: number; p: number } {
  requireValues("values", values, 3);
  if (values.length > 5000) throw new InputError("values", `${values.length} values`, "at most 5000 values");
  const squares = sumOfSquares(values);
  requireScatter("values", squares, values, "values that scatter");
  const middle = mean(values);
  const ordered = values.map((value) => value - middle).sort((a, b) => a - b);
  const weights = weightsOf(values.length);
  // Correlation of the ordered values with the weights; 1 - w from the residuals, which keeps its digits near w = 1.
  const slope = sum(ordered.map((value, at) => value * weights[at]!));
  const residuals = sum(ordered.map((value, at) => (value - slope * weights[at]!) ** 2));
  const shortfall = residuals / squares;
  return { w: 1 - shortfall, p: pOf(shortfall, values.length) };
}

/** Antisymmetric weights of unit length, ascending. */
function weightsOf(n: number): number[] {
  if (n === 3) return [-Math.SQRT1_2, 0, Math.SQRT1_2];
  const scores = Array.from({ length: n }, (_, at) => normalQuantile((at + 1 - 0.375) / (n + 0.25)));
  const squares = sum(scores.map((score) => score * score));
  const root = 1 / Math.sqrt(n);
  const length = Math.sqrt(squares);
  const last = polynomial(lastWeight, root) + scores[n - 1]! / length;
  const weights = [...scores];
  const corrected = n > 5 ? 2 : 1;
  const lastButOne = polynomial(lastButOneWeight, root) + scores[n - 2]! / length;
  const taken = scores[n - 1]! ** 2 + (corrected === 2 ? scores[n - 2]! ** 2 : 0);
  const given = last ** 2 + (corrected === 2 ? lastButOne ** 2 : 0);
  const scale = Math.sqrt((squares - 2 * taken) / (1 - 2 * given));
  for (let at = corrected; at < n - corrected; at++) weights[at] = scores[at]! / scale;
  weights[0] = -last;
  weights[n - 1] = last;
  if (corrected === 2) {
    weights[1] = -lastButOne;
    weights[n - 2] = lastButOne;
  }
  return weights;
}

function pOf(shortfall: number, n: number): number {
  // Three values: exact (Shapiro and Wilk 1965). w is never below 3/4 there.
  if (n === 3) {
    const angle = Math.asin(Math.sqrt(Math.min(1, 1 - shortfall))) - Math.asin(Math.sqrt(0.75));
    return Math.min(1, Math.max(0, (6 / Math.PI) * angle));
  }
  const log = Math.log(shortfall);
  if (n > 11) {
    const size = Math.log(n);
    return normalSf((log - polynomial(largeMean, size)) / Math.exp(polynomial(largeLogSd, size)));
  }
  const shift = polynomial(smallShift, n);
  // Beyond the shift lies no sample of this size: as unlikely as the approximation can say.
  if (log >= shift) return Number.MIN_VALUE;
  const turned = -Math.log(shift - log);
  return normalSf((turned - polynomial(smallMean, n)) / Math.exp(polynomial(smallLogSd, n)));
}

function polynomial(coefficients: readonly number[], at: number): number {
  return coefficients.reduceRight((total, coefficient) => total * at + coefficient, 0);
}
