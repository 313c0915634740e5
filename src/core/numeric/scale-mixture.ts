/**
 * Averages over the estimated standard deviation: what the noncentral t and the studentized range share.
 *
 * Units    none (logarithms of probabilities)
 * Source   definition of the mean over the chi distribution; trapezoidal rule
 * Status   computed
 */
import { logGamma } from "./log-gamma.ts";

/** Steps per width of the sharpest feature. The trapezoidal rule on a smooth, vanishing integrand then has no error left. */
const stepsPerWidth = 2.2;
const negligible = -40;

/**
 * ln of the mean of exp(logProbability(s)) over s = sqrt(chi-square / df).
 * `startAt` is a guess of the s that counts most, `sharpness` the squared inverse width, in ln s, of the probability's steepest part.
 */
export function logMeanOverScale(
  df: number,
  logProbability: (s: number) => number,
  { startAt, sharpness }: { startAt: number; sharpness: number },
): number {
  const step = 1 / (stepsPerWidth * Math.sqrt(2 * df + sharpness));
  const logTerm = (u: number) => {
    const s = Math.exp(u);
    return df * u - 0.5 * df * s * s + logProbability(s);
  };
  const top = climb(logTerm, Math.log(startAt), step);
  if (top.value === Number.NEGATIVE_INFINITY) return top.value;
  const sum = 1 + sumFrom(logTerm, top, step) + sumFrom(logTerm, top, -step);
  // The density of ln s is 2 (df/2)^(df/2) / Γ(df/2) exp(df u - df exp(2u) / 2).
  const front = Math.LN2 + 0.5 * df * Math.log(0.5 * df) - logGamma(0.5 * df);
  return Math.min(0, front + top.value + Math.log(sum * step));
}

type Top = { at: number; value: number };

/** The highest point of the lattice of steps, reached by strides that shrink. */
function climb(logTerm: (u: number) => number, from: number, step: number): Top {
  let top: Top = { at: from, value: logTerm(from) };
  for (let stride = 16 * step; stride >= step; stride /= 4) {
    for (const direction of [stride, -stride]) {
      for (;;) {
        const value = logTerm(top.at + direction);
        if (!(value > top.value)) break;
        top = { at: top.at + direction, value };
      }
    }
  }
  return top;
}

/** The terms on one side of the top, relative to it. */
function sumFrom(logTerm: (u: number) => number, top: Top, step: number): number {
  let sum = 0;
  for (let n = 1; n < 100_000; n++) {
    const relative = logTerm(top.at + n * step) - top.value;
    if (relative < negligible) break;
    sum += Math.exp(relative);
  }
  return sum;
}
