/**
 * One group of coupons as a fit sees it: equal intervals counted together, and what can be known of its location at a given scale.
 *
 * Units    days; locations and shifts in ln days
 * Source   likelihood of Meeker and Escobar 1998; Newton's steps inside a bracket, a textbook method
 * Status   memory
 */
import type { InspectionInterval } from "./inspection-interval.ts";
import { contribution, type StandardDistribution } from "./location-scale-likelihood.ts";

export type CountedInterval = InspectionInterval & { count: number };

/** A group whose location moves by itself. `shift` is added to it: a time factor under test, in ln days. */
export type LifeSample = { intervals: readonly CountedInterval[]; shift: number };

/** Value of the log-likelihood and its derivatives by the location and by ln scale. */
export type Likelihood = { value: number; byLocation: number; byLogScale: number; byLocationTwice: number };

/** A group's intervals, equal ones counted together, in the order first met; not shifted. Days. */
export function lifeSample(observations: readonly InspectionInterval[]): LifeSample {
  const intervals: CountedInterval[] = [];
  for (const { leftDays, rightDays } of observations) {
    const known = intervals.find((one) => one.leftDays === leftDays && one.rightDays === rightDays);
    if (known) known.count++;
    else intervals.push({ leftDays, rightDays, count: 1 });
  }
  return { intervals, shift: 0 };
}

/** No coupon was seen to rust: the location runs to infinity. */
export function allClean({ intervals }: LifeSample): boolean {
  return intervals.every((one) => one.rightDays === null);
}

/** Each coupon had rusted by its first look (or was never looked at): the location runs to minus infinity. */
export function allBeforeFirstLook({ intervals }: LifeSample): boolean {
  return intervals.every((one) => one.leftDays === 0);
}

/** The log-likelihood of samples with one location between them (each with its own shift). */
export function likelihoodAt(
  distribution: StandardDistribution,
  samples: readonly LifeSample[],
  { location, logScale }: { location: number; logScale: number },
): Likelihood {
  const sum = { value: 0, byLocation: 0, byLogScale: 0, byLocationTwice: 0 };
  for (const { intervals, shift } of samples) {
    for (const one of intervals) {
      const share = contribution(distribution, one, { location: location + shift, logScale });
      sum.value += one.count * share.value;
      sum.byLocation += one.count * share.byLocation;
      sum.byLogScale += one.count * share.byLogScale;
      sum.byLocationTwice += one.count * share.byLocationTwice;
    }
  }
  return sum;
}

/**
 * The best location at a given scale. The log-likelihood is concave in it, so its slope has one zero, found by Newton's steps
 * inside a bracket that is halved when they are slow; `near` is a guess. Needs samples that, taken together, are neither all
 * clean nor all rusted by their first look.
 */
export function bestLocation(
  distribution: StandardDistribution,
  samples: readonly LifeSample[],
  { logScale, near }: { logScale: number; near?: number | undefined },
): Likelihood & { location: number } {
  const scale = Math.exp(logScale);
  let [low, high] = locationBracket(samples, scale);
  let location = near !== undefined && near > low && near < high ? near : (low + high) / 2;
  let [step, stepBefore] = [high - low, high - low];
  let at = likelihoodAt(distribution, samples, { location, logScale });
  for (let round = 0; round < 400 && at.byLocation !== 0; round++) {
    if (at.byLocation > 0) low = location;
    else high = location;
    const newton = -at.byLocation / at.byLocationTwice;
    // Newton's steps must shrink faster than halving would, counted over two of them.
    const useful =
      location + newton > low && location + newton < high && Math.abs(newton) <= 0.5 * Math.abs(stepBefore);
    stepBefore = step;
    step = useful ? newton : (low + high) / 2 - location;
    location += step;
    at = likelihoodAt(distribution, samples, { location, logScale });
    // They square the miss: after one of 1e-8 scales nothing is left to gain. Halving ends at the last digit.
    if (useful ? Math.abs(step) <= 1e-8 * scale : Math.abs(step) <= 1e-15 * Math.max(1, Math.abs(location))) break;
  }
  return { ...at, location };
}

/** The profile over ln scale: each search begins where the last one ended, which is near on a grid. */
export function profileOf(distribution: StandardDistribution, samples: readonly LifeSample[]) {
  let near: number | undefined;
  return (logScale: number) => {
    const best = bestLocation(distribution, samples, { logScale, near });
    near = best.location;
    return best;
  };
}

/** Forty scales beyond the outermost times the slope has its sign for sure. */
function locationBracket(samples: readonly LifeSample[], scale: number): [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { intervals, shift } of samples) {
    for (const { leftDays, rightDays } of intervals) {
      for (const days of [leftDays, rightDays]) {
        if (days === 0 || days === null) continue;
        low = Math.min(low, Math.log(days) - shift);
        high = Math.max(high, Math.log(days) - shift);
      }
    }
  }
  return [low - 40 * scale, high + 40 * scale];
}
