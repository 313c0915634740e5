/** Weibull life of one group from its looks. */
import type { InspectionInterval } from "./inspection-interval.ts";
import { lifeFit } from "./life-fit.ts";
import { weibull } from "./weibull-likelihood.ts";

/**
 * Weibull fit by maximum likelihood, with profile intervals of the shape and of B10.
 *
 * Method   survival.weibullMle
 * Formula  F(t) = 1 - exp(-(t / scale)^shape); each coupon gives ln f(t), ln(F(r) - F(l)), ln F(r) or ln(1 - F(l));
 *          ends where 2 (maximum - profile) = chi-square(confidence, 1)
 * Units    days; B10: one in ten has rusted; an end that does not exist is null
 * Source   Meeker and Escobar 1998; Nelson 1982
 * Status   computed
 * Holds    for coupons of one kind; the interval is approximate with few of them
 * Refuses  data without a maximum at a finite shape: no rust, all in one look or two touching ones, all by the first look
 */
export function weibullMle({ observations, confidence }: { observations: InspectionInterval[]; confidence: number }) {
  const { location, scale, scaleLower, scaleUpper, ...fit } = lifeFit(weibull, { observations, confidence });
  return {
    ...fit,
    shape: 1 / scale,
    scaleDays: Math.exp(location),
    shapeLower: scaleUpper === null ? null : 1 / scaleUpper,
    shapeUpper: scaleLower === null ? null : 1 / scaleLower,
  };
}
