/** A share of coupons, photo points or squares, with its uncertainty: Wilson's interval. */
import { InputError, requireFraction, requireWhole } from "../input-error.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";

export type Counted = { successes: number; trials: number; confidence: number };
export type ShareInterval = { lower: number; upper: number };

/**
 * Wilson's score interval of a proportion.
 *
 * Method   statistics.wilsonInterval, proportion.wilson
 * Formula  (p + z²/2n ± z √(p (1-p)/n + z²/4n²)) / (1 + z²/n), no continuity correction
 * Units    counts in; fractions from 0 to 1 out
 * Source   Wilson 1927
 * Status   computed
 * Holds    for separate trials; squares of one photo are not separate coupons
 * Refuses  counts that are not whole; more successes than trials; no trials; a confidence not between 0 and 1
 */
export function wilsonInterval(counted: Counted): ShareInterval {
  requireCounted(counted);
  const { successes, trials, confidence } = counted;
  const z = normalQuantile((1 - confidence) / 2, "upper");
  const share = successes / trials;
  const spread = (z * z) / trials;
  const half = Math.sqrt(spread * (share * (1 - share) + spread / 4));
  // None and all bound the interval exactly; the formula leaves a rounding error there.
  return {
    lower: successes === 0 ? 0 : (share + spread / 2 - half) / (1 + spread),
    upper: successes === trials ? 1 : (share + spread / 2 + half) / (1 + spread),
  };
}

/** Whole successes among whole trials, and a confidence. */
export function requireCounted({ successes, trials, confidence }: Counted): void {
  requireWhole("trials", trials, 1);
  requireWhole("successes", successes);
  if (successes > trials) throw new InputError("successes", successes, `at most the trials, ${trials}`);
  requireFraction("confidence", confidence);
}
