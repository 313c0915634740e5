/** How many coupons must all stay clean to prove a reliability. */
import { requireFraction } from "../input-error.ts";

/**
 * Fewest coupons, all clean, that prove a reliability.
 *
 * Method   survival.successRunUnits
 * Formula  the smallest whole n with n >= ln(1 - confidence) / ln(reliability)
 * Units    reliability and confidence fractions; units a count
 * Source   binomial distribution, no failures
 * Status   computed
 * Holds    when none fails; a single failure and the plan has failed
 * Refuses  a reliability or confidence not between 0 and 1
 */
export function successRunUnits({ reliability, confidence }: { reliability: number; confidence: number }) {
  requireFraction("reliability", reliability);
  requireFraction("confidence", confidence);
  // 0.5 and 0.75 are two units exactly; rounding would ask for a third.
  return { units: Math.max(1, Math.ceil(Math.log1p(-confidence) / Math.log(reliability) - 1e-9)) };
}
