/**
 * One group's life: the maximum of its likelihood and the two profile intervals that every fit here prints.
 *
 * Units    days; location in ln days, scale without unit
 * Source   profile likelihood, Meeker and Escobar 1998
 * Status   memory
 */
import { InputError, requireFraction } from "../input-error.ts";
import { chi2Quantile } from "../numeric/chi2-distribution.ts";
import { type InspectionInterval, requireIntervals } from "./inspection-interval.ts";
import { allBeforeFirstLook, allClean, type LifeSample, lifeSample, likelihoodAt, profileOf } from "./life-sample.ts";
import type { StandardDistribution } from "./location-scale-likelihood.ts";
import { bestLogScale, highestOverScale, profileEnd, widestRange } from "./scale-profile.ts";

/** B10: the time by which one in ten has rusted. */
const earlyShare = 0.1;

/** Fit of ln T = location + scale Z, in ln days; ends that do not exist are null. */
export type LifeFit = {
  location: number;
  scale: number;
  logLikelihood: number;
  medianDays: number;
  b10Days: number;
  scaleLower: number | null;
  scaleUpper: number | null;
  b10LowerDays: number | null;
  b10UpperDays: number | null;
};

/** Refuses data without a maximum at a finite scale above 0, saying what the data do show. */
export function lifeFit(
  distribution: StandardDistribution,
  { observations, confidence }: { observations: InspectionInterval[]; confidence: number },
): LifeFit {
  requireIntervals("observations", observations);
  requireFraction("confidence", confidence);
  const sample = lifeSample(observations);
  requireFiniteLocation(sample);
  const profile = profileOf(distribution, [sample]);
  const logScale = bestLogScale(profile);
  if (logScale === null) throw new InputError("observations", shownIntervals(sample), finiteShapeExpected);
  const { location, value: logLikelihood } = profile(logScale);
  const scale = Math.exp(logScale);
  const allowed = chi2Quantile(confidence, 1) / 2;
  const fall = (at: number) => logLikelihood - profile(at).value;
  const scaleEnd = (limit: number) => exponential(profileEnd(fall, { start: logScale, limit, allowed }));
  const logB10 = location + scale * distribution.quantile(earlyShare);
  return {
    location,
    scale,
    logLikelihood,
    medianDays: Math.exp(location + scale * distribution.quantile(0.5)),
    b10Days: Math.exp(logB10),
    scaleLower: scaleEnd(widestRange.from),
    scaleUpper: scaleEnd(widestRange.to),
    ...b10Ends(distribution, sample, { logB10, logLikelihood, allowed }),
  };
}

export const finiteShapeExpected =
  "data with a maximum at a finite shape: rust in at least two separate stretches of time, or in one and coupons that outlived part of it; " +
  "otherwise give the looks themselves as the bound, and test with the permutation test";

/** Refuses no rust at all, and rust on each coupon by its first look. */
export function requireFiniteLocation(sample: LifeSample): void {
  if (allClean(sample))
    throw new InputError(
      "observations",
      "without any rust",
      "rust on at least one coupon; with none, the zero-failure bound",
    );
  if (allBeforeFirstLook(sample))
    throw new InputError("observations", "all rusted by their first look", "a coupon that was seen clean at some look");
}

/** The first six different inspection intervals of a group as a refusal quotes them, "3 x (7, 14]". Days. */
export function shownIntervals({ intervals }: LifeSample): string {
  return intervals
    .map(({ leftDays, rightDays, count }) => `${count} x (${leftDays}, ${rightDays ?? "still clean"}]`)
    .slice(0, 6)
    .join(", ");
}

/** Undoes a logarithm: ln days to days, ln of a ratio to the ratio; null, an end that does not exist, stays null. */
export function exponential(logarithm: number | null): number | null {
  return logarithm === null ? null : Math.exp(logarithm);
}

/** Profile of ln B10: for each value the best scale, the location following from both. */
function b10Ends(
  distribution: StandardDistribution,
  sample: LifeSample,
  { logB10, logLikelihood, allowed }: { logB10: number; logLikelihood: number; allowed: number },
) {
  const z = distribution.quantile(earlyShare);
  const curve = (at: number) => (logScale: number) => {
    const move = Math.exp(logScale) * z;
    const { value, byLocation, byLogScale } = likelihoodAt(distribution, [sample], { location: at - move, logScale });
    return { value, byLogScale: byLogScale - move * byLocation };
  };
  const fall = (at: number) => logLikelihood - highestOverScale(curve(at));
  // e^±300 days: beyond any time there is, within what a number holds.
  const end = (limit: number) => exponential(profileEnd(fall, { start: logB10, limit, allowed }));
  return { b10LowerDays: end(-300), b10UpperDays: end(300) };
}
