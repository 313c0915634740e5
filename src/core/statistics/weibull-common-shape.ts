/**
 * Weibull times of several groups with one shape: a location for each treatment, and for each block when asked.
 *
 * Units   ln days (or ln strokes) in; shape without unit, locations as shape x ln days
 * Source  Meeker and Escobar 1998; accelerated life with one shape, by Newton steps
 * Status  computed
 */
import { type LogInterval, type WeibullTerm, weibullTerm } from "./weibull-term.ts";

/** `columns`: the locations that this coupon's ln scale is the sum of. `weight`: 1 / coupons of its unit. */
export type WeightedTime = LogInterval & { columns: readonly number[]; weight: number };

export type CommonShapeFit = {
  logLikelihood: number;
  shape: number;
  /** shape x ln scale, by column. */
  locations: number[];
  /** False: the shape or a location ran away, and the likelihood given is close to its limit. */
  finite: boolean;
};

/** A fit above this shape is no fit: the looks cannot tell it from "all at one moment". */
export const largestShape = 20;
const smallestShape = 1e-3;
const rounds = 100;
const settled = 1e-11;

/** The highest log-likelihood over shape and locations, by Newton steps. With `shape` given, over the locations alone. */
export function commonShapeFit(
  times: readonly WeightedTime[],
  columns: number,
  { shape }: { shape?: number } = {},
): CommonShapeFit {
  const fixed = shape !== undefined;
  let at = startingPoint(times, columns, shape ?? 2);
  let here = slopes(times, at);
  for (let round = 0; round < rounds; round++) {
    const step = newtonStep(here, fixed);
    const rise = step.reduce((sum, change, k) => sum + change * here.gradient[k]!, 0);
    if (rise < settled) return finished(at, here.value, true);
    const next = climbed(times, at, here.value, step);
    if (next === null) return finished(at, here.value, rise < 1e-6);
    at = next;
    here = slopes(times, at);
    if (at[0]! > 10 * largestShape) break;
  }
  return finished(at, here.value, false);
}

function finished(at: Float64Array, logLikelihood: number, settled: boolean): CommonShapeFit {
  const shape = at[0]!;
  const locations = [...at.subarray(1)];
  // A location so far out that its coupons add nothing has no maximum.
  const near = locations.every((location) => Math.abs(location / shape) < 60);
  return {
    logLikelihood,
    shape,
    locations,
    finite: settled && near && shape <= largestShape && shape >= smallestShape,
  };
}

/** Shape first, then the locations: each column's mean ln time, the later columns counted from the first. */
function startingPoint(times: readonly WeightedTime[], columns: number, shape: number): Float64Array {
  const sum = new Float64Array(columns);
  const weight = new Float64Array(columns);
  for (const time of times) {
    const column = time.columns[0]!;
    sum[column]! += time.weight * middle(time);
    weight[column]! += time.weight;
  }
  const start = new Float64Array(columns + 1);
  start[0] = shape;
  for (let column = 0; column < columns; column++)
    if (weight[column]! > 0) start[column + 1] = shape * (sum[column]! / weight[column]!);
  return start;
}

function middle({ left, right }: LogInterval): number {
  if (left !== null && right !== null) return (left + right) / 2;
  return left !== null ? left + 0.3 : (right ?? 0) - 0.5;
}

type Slopes = { value: number; gradient: Float64Array; curvature: Float64Array[] };

const zeroTerm = (): WeibullTerm => ({ value: 0, left: 0, right: 0, leftLeft: 0, rightRight: 0, leftRight: 0 });

/** Height, gradient and minus the second derivatives at a point. */
function slopes(times: readonly WeightedTime[], at: Float64Array): Slopes {
  const gradient = new Float64Array(at.length);
  const curvature = Array.from({ length: at.length }, () => new Float64Array(at.length));
  const term = zeroTerm();
  let value = 0;
  for (const time of times) {
    const { left, right, columns, weight } = time;
    weibullTerm(time, at[0]!, locationOf(time, at), term);
    value += weight * term.value;
    const exact = left !== null && left === right;
    const [x, y] = [left ?? 0, right ?? 0];
    const toShape = term.left * x + term.right * y + (exact ? 1 / at[0]! : 0);
    const toLocation = -(term.left + term.right);
    const shapeShape =
      term.leftLeft * x * x + 2 * term.leftRight * x * y + term.rightRight * y * y - (exact ? 1 / at[0]! ** 2 : 0);
    const shapeLocation = -(term.leftLeft * x + term.leftRight * (x + y) + term.rightRight * y);
    const locationLocation = term.leftLeft + 2 * term.leftRight + term.rightRight;
    gradient[0]! += weight * toShape;
    curvature[0]![0]! -= weight * shapeShape;
    for (const column of columns) {
      gradient[column + 1]! += weight * toLocation;
      curvature[0]![column + 1]! -= weight * shapeLocation;
      curvature[column + 1]![0]! -= weight * shapeLocation;
      for (const other of columns) curvature[column + 1]![other + 1]! -= weight * locationLocation;
    }
  }
  return { value, gradient, curvature };
}

function locationOf({ columns }: WeightedTime, at: Float64Array): number {
  let location = 0;
  for (const column of columns) location += at[column + 1]!;
  return location;
}

function height(times: readonly WeightedTime[], at: Float64Array): number {
  const term = zeroTerm();
  let value = 0;
  for (const time of times) {
    weibullTerm(time, at[0]!, locationOf(time, at), term);
    value += time.weight * term.value;
  }
  return value;
}

function newtonStep({ gradient, curvature }: Slopes, fixedShape: boolean): Float64Array {
  const from = fixedShape ? 1 : 0;
  const size = gradient.length - from;
  const root = Array.from({ length: size }, () => new Float64Array(size));
  const step = gradient.slice(from);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = curvature[row + from]![column + from]!;
      for (let k = 0; k < column; k++) sum -= root[row]![k]! * root[column]![k]!;
      // A direction in which the height does not bend gets a small pivot: a long step, cut by the climb.
      root[row]![column] =
        row === column
          ? Math.sqrt(Math.max(sum, 1e-12 * (1 + curvature[row + from]![row + from]!)))
          : sum / root[column]![column]!;
    }
    for (let k = 0; k < row; k++) step[row]! -= root[row]![k]! * step[k]!;
    step[row]! /= root[row]![row]!;
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) step[row]! -= root[k]![row]! * step[k]!;
    step[row]! /= root[row]![row]!;
  }
  return fixedShape ? Float64Array.of(0, ...step) : step;
}

/** The whole step, or half, a quarter... of it until the height rises and the shape stays above 0; null when none does. */
function climbed(times: readonly WeightedTime[], at: Float64Array, from: number, step: Float64Array) {
  for (let length = 1; length > 1e-10; length /= 2) {
    const next = at.map((value, k) => value + length * step[k]!);
    if (!(next[0]! > 0)) continue;
    const value = height(times, next);
    if (value > from) return next;
  }
  return null;
}
