/** What a run of clean coupons proves. */
import { requireFraction, requireWhole } from "../input-error.ts";

/**
 * Lower bound of the share that stays clean, when all coupons did.
 *
 * Method   survival.successRun
 * Formula  R = (1 - confidence)^(1 / n)
 * Units    units a count; confidence and reliabilityLower fractions; one-sided
 * Source   binomial distribution, no failures
 * Status   computed
 * Holds    for coupons treated and exposed alike, over the time of this test only
 * Refuses  no units, a count that is not whole, a confidence not between 0 and 1
 */
export function successRun({ units, confidence }: { units: number; confidence: number }) {
  requireWhole("units", units, 1);
  requireFraction("confidence", confidence);
  return { reliabilityLower: Math.exp(Math.log1p(-confidence) / units) };
}
