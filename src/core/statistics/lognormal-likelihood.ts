/** The lognormal distribution of a life, by its share in the likelihood of censored data. */
import { normalLogCdf, normalLogSf, normalQuantile } from "../numeric/normal-distribution.ts";
import type { StandardDistribution } from "./location-scale-likelihood.ts";

const lnRootTwoPi = 0.9189385332046727;
const logDensity = (z: number) => -0.5 * z * z - lnRootTwoPi;

/** ln T = mu + sigma Z with Z standard normal. */
export const lognormal: StandardDistribution = {
  exact: (z) => ({ value: logDensity(z), slope: -z, bend: -1 }),
  before: (z) => {
    const value = normalLogCdf(z);
    const slope = Math.exp(logDensity(z) - value);
    return { value, slope, bend: -slope * (z + slope) };
  },
  after: (z) => {
    const value = normalLogSf(z);
    const slope = -Math.exp(logDensity(z) - value);
    return { value, slope, bend: -slope * (z + slope) };
  },
  between: (from, to) => {
    const value = logBetween(from, to);
    const slope1 = -Math.exp(logDensity(from) - value);
    const slope2 = Math.exp(logDensity(to) - value);
    const slope = slope1 + slope2;
    return {
      value,
      slope2,
      slope,
      bend1: -slope1 * (from + slope),
      bend2: -slope2 * (to + slope),
      bend12: -slope1 * slope2,
    };
  },
  quantile: (f) => normalQuantile(f),
};

/** From the nearer tail: in the far one both shares would be 1. */
function logBetween(from: number, to: number): number {
  if (from + to > 0) return logBetween(-to, -from);
  const [small, large] = [normalLogCdf(from), normalLogCdf(to)];
  return large + Math.log(-Math.expm1(small - large));
}
