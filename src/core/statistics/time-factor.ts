/** How many times longer do the treated coupons last? One shape for both groups, one factor between their times. */
import { InputError, requireFraction, requireOneOf } from "../input-error.ts";
import { chi2Quantile, chi2Sf } from "../numeric/chi2-distribution.ts";
import { type InspectionInterval, requireIntervals } from "./inspection-interval.ts";
import { exponential, finiteShapeExpected, shownIntervals } from "./life-fit.ts";
import { allBeforeFirstLook, allClean, type LifeSample, lifeSample, profileOf } from "./life-sample.ts";
import type { StandardDistribution } from "./location-scale-likelihood.ts";
import { lognormal } from "./lognormal-likelihood.ts";
import { bestLogScale, highestOverScale, profileEnd } from "./scale-profile.ts";
import { weibull } from "./weibull-likelihood.ts";

const distributions = { weibull, lognormal };

/**
 * Time factor between two groups: accelerated life with a common shape.
 *
 * Method   survival.timeFactor
 * Formula  ln T = mu + delta [treated] + sigma Z; timeFactor = exp(delta); likelihoodRatio = 2 (L1 - L0), L0 with delta 0;
 *          ends where 2 (L1 - profile over mu and sigma) = chi-square(confidence, 1); p from chi-square with 1 df
 * Units    days in; the factor is a ratio of times; an end that does not exist is null
 * Source   Meeker and Escobar 1998; Kalbfleisch and Prentice
 * Status   computed
 * Holds    as a size: with a handful of coupons the p is too small, the permutation test decides. One group all clean (or all
 *          rusted by its first look) leaves the factor and one end without a finite value
 * Refuses  both groups clean, or data without a maximum at a finite shape
 */
export function timeFactor({
  distribution,
  control,
  treated,
  confidence,
}: {
  distribution: keyof typeof distributions;
  control: InspectionInterval[];
  treated: InspectionInterval[];
  confidence: number;
}) {
  requireOneOf("distribution", distribution, ["weibull", "lognormal"]);
  requireIntervals("control", control);
  requireIntervals("treated", treated);
  requireFraction("confidence", confidence);
  const life = distributions[distribution];
  const groups: Groups = { control: lifeSample(control), treated: lifeSample(treated) };
  const fit = separateFit(life, groups);
  const logLikelihoodNull = highestWithDelta(life, groups, 0);
  // Rounding aside it cannot be negative.
  const likelihoodRatio = Math.max(0, 2 * (fit.logLikelihood - logLikelihoodNull));
  return {
    timeFactor: exponential(fit.delta),
    ...factorEnds(life, groups, { ...fit, allowed: chi2Quantile(confidence, 1) / 2 }),
    likelihoodRatio,
    p: chi2Sf(likelihoodRatio, 1),
    logLikelihood: fit.logLikelihood,
    logLikelihoodNull,
    ...(distribution === "weibull" ? { shape: 1 / fit.scale } : { sigma: fit.scale }),
  };
}

type Groups = { control: LifeSample; treated: LifeSample };

/** A location of its own for each group. A group without a finite one gives nothing: its likelihood rises to 1 as it moves away. */
function separateFit(life: StandardDistribution, { control, treated }: Groups) {
  const finite = [control, treated].filter((sample) => !allClean(sample) && !allBeforeFirstLook(sample));
  if (finite.length === 0)
    throw new InputError("control", shownIntervals(control), "rust between two looks in at least one of the groups");
  const profiles = finite.map((sample) => profileOf(life, [sample]));
  const profile = (logScale: number) => {
    const best = profiles.map((one) => one(logScale));
    return {
      value: best.reduce((sum, one) => sum + one.value, 0),
      byLogScale: best.reduce((sum, one) => sum + one.byLogScale, 0),
      locations: best.map((one) => one.location),
    };
  };
  const logScale = bestLogScale(profile);
  if (logScale === null) throw new InputError("control", shownIntervals(control), finiteShapeExpected);
  const { value, locations } = profile(logScale);
  const delta = finite.length === 2 ? locations[1]! - locations[0]! : null;
  return { delta, scale: Math.exp(logScale), logLikelihood: value };
}

/** Highest log-likelihood with the treated times exp(delta) times those of the control. */
function highestWithDelta(life: StandardDistribution, { control, treated }: Groups, delta: number): number {
  return highestOverScale(profileOf(life, [control, { ...treated, shift: delta }]));
}

function factorEnds(
  life: StandardDistribution,
  groups: Groups,
  { delta, logLikelihood, allowed }: { delta: number | null; logLikelihood: number; allowed: number },
): { lower: number | null; upper: number | null } {
  const fall = (at: number) => logLikelihood - highestWithDelta(life, groups, at);
  const end = (start: number, limit: number) => exponential(profileEnd(fall, { start, limit, allowed }));
  if (delta !== null) return { lower: end(delta, -300), upper: end(delta, 300) };
  // The likelihood only rises towards one side: the end is sought from far out on it.
  const longer = allClean(groups.treated) || allBeforeFirstLook(groups.control);
  return longer ? { lower: end(100, -300), upper: null } : { lower: null, upper: end(-100, 300) };
}
