/** What clean or nearly clean coupons prove about life, if the shape is known from elsewhere. */
import { requireFraction, requirePositive } from "../input-error.ts";
import { chi2Quantile } from "../numeric/chi2-distribution.ts";
import { requireTimedCoupons, type TimedCoupon } from "./timed-coupon.ts";

/**
 * Lower bound of a Weibull scale with a given shape.
 *
 * Method   survival.weibayes
 * Formula  scaleLower = (sum t^shape / (chi-square(confidence, 2r + 2) / 2))^(1 / shape), r events; scale = (sum t^shape / r)^(1 / shape);
 *          reliability at the mission = exp(-(mission / scaleLower)^shape)
 * Units    days run, up to the last clean look; shape without unit; confidence one-sided
 * Source   Nelson 1985; Abernethy, Weibull handbook
 * Status   computed
 * Holds    only as far as the given shape does: show the bound for a low and a high one
 * Refuses  no coupons, a time, shape or mission of 0 or less, a confidence not between 0 and 1
 */
export function weibayes({
  observations,
  shape,
  confidence,
  missionDays,
}: {
  observations: TimedCoupon[];
  shape: number;
  confidence: number;
  missionDays?: number;
}) {
  requireTimedCoupons("observations", observations);
  requirePositive("shape", shape);
  requireFraction("confidence", confidence);
  if (missionDays !== undefined) requirePositive("missionDays", missionDays);
  const events = observations.filter((one) => one.event).length;
  // Powers of shares of the longest time: a high shape would overflow.
  const longest = observations.reduce((most, one) => Math.max(most, one.days), 0);
  const run = observations.reduce((sum, one) => sum + (one.days / longest) ** shape, 0);
  const scaleFor = (divisor: number) => longest * (run / divisor) ** (1 / shape);
  const scaleLowerDays = scaleFor(chi2Quantile(confidence, 2 * events + 2) / 2);
  return {
    scaleLowerDays,
    scaleDays: events === 0 ? null : scaleFor(events),
    ...(missionDays === undefined ? {} : { reliabilityLower: Math.exp(-((missionDays / scaleLowerDays) ** shape)) }),
  };
}
