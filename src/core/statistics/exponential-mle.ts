/** Exponential life of one group from its looks: one number only, for the poorest data. */
import { requireFraction } from "../input-error.ts";
import { chi2Quantile } from "../numeric/chi2-distribution.ts";
import { type InspectionInterval, requireIntervals } from "./inspection-interval.ts";
import { exponential, requireFiniteLocation } from "./life-fit.ts";
import { bestLocation, lifeSample, likelihoodAt } from "./life-sample.ts";
import { profileEnd } from "./scale-profile.ts";
import { weibull } from "./weibull-likelihood.ts";

/**
 * Exponential fit by maximum likelihood (a Weibull life of shape 1), with the likelihood interval of the mean.
 *
 * Method   survival.exponentialMle
 * Formula  F(t) = 1 - exp(-t / mean); likelihood as for the Weibull life; median = mean ln 2, B10 = -mean ln 0.9
 * Units    days
 * Source   Meeker and Escobar 1998; Nelson 1982
 * Status   computed
 * Holds    where rust comes at random and age does not matter; it has a maximum even when all rusted between the same two looks
 * Refuses  no rust; all rusted by their first look
 */
export function exponentialMle({
  observations,
  confidence,
}: {
  observations: InspectionInterval[];
  confidence: number;
}) {
  requireIntervals("observations", observations);
  requireFraction("confidence", confidence);
  const sample = lifeSample(observations);
  requireFiniteLocation(sample);
  const { location, value: logLikelihood } = bestLocation(weibull, [sample], { logScale: 0 });
  const allowed = chi2Quantile(confidence, 1) / 2;
  const fall = (at: number) => logLikelihood - likelihoodAt(weibull, [sample], { location: at, logScale: 0 }).value;
  const end = (limit: number) => exponential(profileEnd(fall, { start: location, limit, allowed }));
  const meanDays = Math.exp(location);
  return {
    meanDays,
    medianDays: meanDays * Math.LN2,
    b10Days: -meanDays * Math.log1p(-0.1),
    logLikelihood,
    meanLowerDays: end(location - 100),
    meanUpperDays: end(location + 100),
  };
}
