/** The studentized range: the largest difference among several means, in units of the estimated standard deviation. */
import { requirePositive, requireWhole } from "../input-error.ts";
import { brentRoot } from "./brent.ts";
import { answer, type DistributionQuestion, requireQuantileOf, type Tail } from "./distribution-question.ts";
import { normalLogSf, normalPdf, normalSf } from "./normal-distribution.ts";
import { logMeanOverScale } from "./scale-mixture.ts";

export type RangeShape = { groups: number; df: number };

/**
 * Probabilities, their logarithms and quantiles of the studentized range.
 *
 * Method   distribution.studentizedRange
 * Formula  cdf = mean of W(x s) over s = sqrt(chi-square / df); W = range of `groups` standard normal values
 * Units    x without unit; groups as a count; df above 0, need not be whole; p as a fraction
 * Source   definition, both integrals by the trapezoidal rule; upper tails from their own positive integrand
 * Status   computed
 * Holds    in both tails to about 10 digits
 * Refuses  fewer than two groups; df of 0 or less; the p whose quantile is not finite
 */
export function studentizedRangeDistribution(question: DistributionQuestion & RangeShape): { value: number } {
  const shape = { groups: question.groups, df: question.df };
  requireShape(shape);
  return answer(question, {
    cdf: (x) => studentizedRangeCdf(x, shape),
    sf: (x) => studentizedRangeSf(x, shape),
    logCdf: (x) => studentizedRangeLogCdf(x, shape),
    logSf: (x) => studentizedRangeLogSf(x, shape),
    quantile: (p, tail) => studentizedRangeQuantile(p, shape, tail),
  });
}

function requireShape({ groups, df }: RangeShape): void {
  requireWhole("groups", groups, 2);
  requirePositive("df", df);
}

/** P(Q <= q). */
export function studentizedRangeCdf(q: number, shape: RangeShape): number {
  return Math.exp(studentizedRangeLogCdf(q, shape));
}

/** P(Q > q). */
export function studentizedRangeSf(q: number, shape: RangeShape): number {
  return Math.exp(studentizedRangeLogSf(q, shape));
}

/** ln P(Q <= q); -Infinity at 0. */
export function studentizedRangeLogCdf(q: number, shape: RangeShape): number {
  requireShape(shape);
  if (q <= 0) return Number.NEGATIVE_INFINITY;
  const lower = logLower(q, shape);
  return lower < -0.7 ? lower : Math.log1p(-Math.exp(logUpper(q, shape)));
}

/** ln P(Q > q). */
export function studentizedRangeLogSf(q: number, shape: RangeShape): number {
  requireShape(shape);
  if (q <= 0) return 0;
  const upper = logUpper(q, shape);
  return upper < -0.7 ? upper : Math.log1p(-Math.exp(logLower(q, shape)));
}

/** How sharply the range of normal values sets in, squared inverse width in the logarithm of the range. */
const rangeSharpness = (groups: number) => 12 + 6 * Math.log(groups) ** 2;

function logLower(q: number, { groups, df }: RangeShape): number {
  // Close together, the smallest of many values lies in a bell of width 1/√groups.
  const lattice = latticeOf(Math.min(0.25, 0.55 / Math.sqrt(groups)));
  return logMeanOverScale(df, (s) => logRangeLower(q * s, groups, lattice), {
    startAt: Math.sqrt((df + groups - 1) / df),
    sharpness: rangeSharpness(groups),
  });
}

function logUpper(q: number, { groups, df }: RangeShape): number {
  const lattice = latticeOf(Math.min(0.25, 1.2 / (1 + Math.log(groups))));
  // A normal range beyond w has a tail like exp(-w²/4): together with the chi density it peaks here.
  const startAt = Math.sqrt((2 * df) / (2 * df + q * q));
  return logMeanOverScale(df, (s) => logRangeUpper(q * s, groups, lattice), {
    startAt,
    sharpness: rangeSharpness(groups),
  });
}

/** Upper tail and density of the standard normal at evenly spaced points, for the trapezoidal rule. */
type Lattice = { step: number; points: readonly { z: number; above: number; density: number }[] };
const latticeFrom = -26;
const latticeTo = 12;
const bellReach = 8.6;

function latticeOf(step: number): Lattice {
  const points = Array.from({ length: Math.floor((latticeTo - latticeFrom) / step) + 1 }, (_, at) => {
    const z = latticeFrom + at * step;
    return { z, above: normalSf(z), density: normalPdf(z) };
  });
  return { step, points };
}

/** ln P(range <= w) for `groups` standard normal values; z is the smallest of them. */
function logRangeLower(w: number, groups: number, lattice: Lattice): number {
  if (w > 30) return 0;
  const sum = overLattice(
    lattice,
    Math.min(0.5 * w, 2),
    ({ z, above, density }) => density * (above - normalSf(z + w)) ** (groups - 1),
  );
  return Math.log(groups * sum);
}

/** ln P(range > w). */
function logRangeUpper(w: number, groups: number, lattice: Lattice): number {
  // Far out only one pair can be that far apart: pairs times the tail of one difference.
  if (w > 30) return Math.log(groups * (groups - 1)) + normalLogSf(w / Math.SQRT2);
  // All others above the smallest, less all of them also within w of it, without subtracting.
  const sum = overLattice(
    lattice,
    0.5 * w,
    ({ z, above, density }) =>
      -density * above ** (groups - 1) * Math.expm1((groups - 1) * Math.log1p(-normalSf(z + w) / above)),
  );
  return Math.log(groups * sum);
}

/** Trapezoidal rule over the bell of the smallest value, which lies round -centre. */
function overLattice(
  { step, points }: Lattice,
  centre: number,
  term: (point: Lattice["points"][number]) => number,
): number {
  const first = Math.ceil((-centre - bellReach - latticeFrom) / step);
  const last = Math.floor((-centre + bellReach - latticeFrom) / step);
  let sum = 0;
  for (let at = first; at <= last; at++) sum += term(points[at]!);
  return sum * step;
}

/** The q with P(Q <= q) = p (tail "lower", the default) or P(Q > q) = p ("upper"). */
export function studentizedRangeQuantile(p: number, shape: RangeShape, tail: Tail = "lower"): number {
  requireShape(shape);
  requireQuantileOf(p, tail, [1]);
  if (p === 0 || p === 1) return 0;
  if (p > 0.5) return studentizedRangeQuantile(1 - p, shape, tail === "lower" ? "upper" : "lower");
  const logP = Math.log(p);
  const tailAt = tail === "lower" ? studentizedRangeLogCdf : studentizedRangeLogSf;
  // Both tails are nearly straight lines in ln q far out.
  const excess = (logQ: number) => tailAt(Math.exp(logQ), shape) - logP;
  const outwards = tail === "lower" ? -1 : 1;
  let near = Math.log(3);
  let far = near + outwards * 0.5;
  while (excess(near) < 0) near -= outwards * 0.5;
  for (let stride = 0.5; excess(far) > 0; stride *= 2) {
    near = far;
    far += outwards * stride;
  }
  return Math.exp(brentRoot(excess, near, far, 1e-12));
}
