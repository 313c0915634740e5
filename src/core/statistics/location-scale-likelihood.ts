/**
 * Log-likelihood of inspection intervals under ln T = location + scale Z, whatever the distribution of Z: one observation's
 * share of it, with first and second derivatives by the location and by ln scale.
 *
 * Units    ln days; natural logarithm of the likelihood
 * Source   Meeker and Escobar 1998; Nelson 1982
 * Status   memory
 */
import type { InspectionInterval } from "./inspection-interval.ts";

/** h as a function of one standardised time z: its value, slope and second derivative. */
export type TermAtOne = { value: number; slope: number; bend: number };
/**
 * h as a function of both ends: `slope2` by the right end alone, `slope` when both move together; `bend1`, `bend2` how the slopes
 * by the left and by the right end change when both move together, `bend12` how the one changes with the other end. In this form nothing large
 * cancels when the ends lie close together.
 */
export type TermAtTwo = {
  value: number;
  slope2: number;
  slope: number;
  bend1: number;
  bend2: number;
  bend12: number;
};

/** The distribution of Z by what it gives to the likelihood. */
export type StandardDistribution = {
  /** ln of the density at z. */
  exact: (z: number) => TermAtOne;
  /** ln P(Z <= z): rust at the first look. */
  before: (z: number) => TermAtOne;
  /** ln P(Z > z): clean at the last look. */
  after: (z: number) => TermAtOne;
  /** ln P(from < Z <= to): rust between two looks. */
  between: (from: number, to: number) => TermAtTwo;
  /** The z that the share `f` lies below. */
  quantile: (f: number) => number;
};

/** One observation's share of the log-likelihood and its derivatives by m = location and s = ln scale. Shares of coupons add up. */
export type Contribution = {
  value: number;
  byLocation: number;
  byLogScale: number;
  byLocationTwice: number;
  byBoth: number;
  byLogScaleTwice: number;
};

/** The share of one observation; times in days, the density of an exact time per day. */
export function contribution(
  distribution: StandardDistribution,
  { leftDays, rightDays }: InspectionInterval,
  { location, logScale }: { location: number; logScale: number },
): Contribution {
  const scale = Math.exp(logScale);
  const standard = (days: number) => (Math.log(days) - location) / scale;
  if (leftDays === rightDays) {
    const z = standard(leftDays);
    const share = fromOne(distribution.exact(z), z, scale);
    // The density in days, not in z: ln sigma and ln t belong to it.
    return { ...share, value: share.value - logScale - Math.log(leftDays), byLogScale: share.byLogScale - 1 };
  }
  if (rightDays === null) {
    if (leftDays === 0) return nothing;
    const z = standard(leftDays);
    return fromOne(distribution.after(z), z, scale);
  }
  if (leftDays === 0) {
    const z = standard(rightDays);
    return fromOne(distribution.before(z), z, scale);
  }
  const [from, to] = [standard(leftDays), standard(rightDays)];
  return fromTwo(distribution.between(from, to), from, to, scale);
}

/** Clean at the start and never looked at again: says nothing. */
const nothing: Contribution = {
  value: 0,
  byLocation: 0,
  byLogScale: 0,
  byLocationTwice: 0,
  byBoth: 0,
  byLogScaleTwice: 0,
};

// dz/d location = -1 / scale, dz/d ln scale = -z.
function fromOne({ value, slope, bend }: TermAtOne, z: number, scale: number): Contribution {
  return {
    value,
    byLocation: -slope / scale,
    byLogScale: -z * slope,
    byLocationTwice: bend / scale ** 2,
    byBoth: (slope + z * bend) / scale,
    byLogScaleTwice: z * slope + z * z * bend,
  };
}

function fromTwo(term: TermAtTwo, from: number, to: number, scale: number): Contribution {
  const { value, slope2, slope, bend1, bend2, bend12 } = term;
  const width = to - from;
  return {
    value,
    byLocation: -slope / scale,
    byLogScale: -(from * slope + width * slope2),
    byLocationTwice: (bend1 + bend2) / scale ** 2,
    byBoth: (slope + from * bend1 + to * bend2) / scale,
    byLogScaleTwice: from * slope + width * slope2 + from * from * bend1 + to * to * bend2 - width * width * bend12,
  };
}
