/** Lognormal life of one group from its looks. */
import type { InspectionInterval } from "./inspection-interval.ts";
import { lifeFit } from "./life-fit.ts";
import { lognormal } from "./lognormal-likelihood.ts";

/**
 * Lognormal fit by maximum likelihood, with profile intervals of sigma and of B10.
 *
 * Method   survival.lognormalMle
 * Formula  F(t) = Phi((ln t - mu) / sigma); each coupon gives ln f(t), ln(F(r) - F(l)), ln F(r) or ln(1 - F(l));
 *          ends where 2 (maximum - profile) = chi-square(confidence, 1)
 * Units    days; mu and sigma of ln days; B10: one in ten has rusted; an end that does not exist is null
 * Source   Meeker and Escobar 1998; Nelson 1982
 * Status   computed
 * Holds    for coupons of one kind; the interval is approximate with few of them
 * Refuses  data without a maximum at a finite sigma: no rust, all in one look or two touching ones, all by the first look
 */
export function lognormalMle({ observations, confidence }: { observations: InspectionInterval[]; confidence: number }) {
  const { location, scale, scaleLower, scaleUpper, ...fit } = lifeFit(lognormal, { observations, confidence });
  return { ...fit, mu: location, sigma: scale, sigmaLower: scaleLower, sigmaUpper: scaleUpper };
}
