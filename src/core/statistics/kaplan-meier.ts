/** Share still free of rust over time, when each time is known. */
import { requireFraction, requireList, requireNotNegative } from "../input-error.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";
import { requireTimedCoupons, type TimedCoupon } from "./timed-coupon.ts";

type Step = { days: number; survival: number; greenwood: number };
type At = { survival: number | null; standardError: number | null; lower: number | null; upper: number | null };

/**
 * Kaplan-Meier estimate with Greenwood's standard error and the log-log interval.
 *
 * Method   survival.kaplanMeier
 * Formula  S = product of (1 - d / n) over the event times up to t; se = S √(sum d / (n (n - d))); interval S^exp(±z se / (S (-ln S)))
 * Units    days in, shares out; medianDays the first event time with S at most 0.5
 * Source   Kaplan and Meier 1958; Greenwood 1926; Kalbfleisch and Prentice
 * Status   computed
 * Holds    for exact times only: the day of a look is not the day of rust. No interval before the first event (use the zero-failure
 *          bound) nor at S = 0; nothing is said beyond the last coupon while S is above 0
 * Refuses  no coupons, a time of 0, an event that is not true or false, a confidence not between 0 and 1
 */
export function kaplanMeier({
  observations,
  atDays,
  confidence,
}: {
  observations: TimedCoupon[];
  atDays: number[];
  confidence: number;
}) {
  requireTimedCoupons("observations", observations);
  requireList("atDays", atDays);
  for (const [at, days] of atDays.entries()) requireNotNegative(`atDays[${at}]`, days);
  requireFraction("confidence", confidence);
  const steps = productLimit(observations);
  const last = observations.reduce((latest, one) => Math.max(latest, one.days), 0);
  const z = normalQuantile((1 - confidence) / 2, "upper");
  const values = atDays.map((days) => estimateAt(days, { steps, last, z }));
  return {
    survival: values.map((one) => one.survival),
    standardError: values.map((one) => one.standardError),
    lower: values.map((one) => one.lower),
    upper: values.map((one) => one.upper),
    medianDays: steps.find((step) => step.survival <= 0.5 + 1e-9)?.days ?? null,
  };
}

/** A coupon taken away on a day was still at risk on it. */
function productLimit(observations: readonly TimedCoupon[]): Step[] {
  const times = [...new Set(observations.filter((one) => one.event).map((one) => one.days))].sort((a, b) => a - b);
  let survival = 1;
  let greenwood = 0;
  return times.map((days) => {
    const atRisk = observations.filter((one) => one.days >= days).length;
    const events = observations.filter((one) => one.event && one.days === days).length;
    survival = events === atRisk ? 0 : survival * (1 - events / atRisk);
    greenwood += events / (atRisk * (atRisk - events));
    return { days, survival, greenwood };
  });
}

function estimateAt(days: number, { steps, last, z }: { steps: readonly Step[]; last: number; z: number }): At {
  const step = steps.findLast((one) => one.days <= days);
  const survival = step?.survival ?? 1;
  const none = { lower: null, upper: null };
  if (survival === 0) return { survival, standardError: null, ...none };
  if (days > last) return { survival: null, standardError: null, ...none };
  if (!step) return { survival, standardError: 0, ...none };
  const root = Math.sqrt(step.greenwood);
  const width = (z * root) / -Math.log(survival);
  return {
    survival,
    standardError: survival * root,
    lower: survival ** Math.exp(width),
    upper: survival ** Math.exp(-width),
  };
}
