/** How much rust must be seen before a log-rank test can tell? */
import { InputError, requireFraction, requirePositive } from "../input-error.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";

/**
 * Events for the log-rank test.
 *
 * Method   power.logRankSchoenfeld
 * Formula  (z(1 - alpha/2) + z(power))^2 / (q (1 - q) ln(hazardRatio)^2), q the share of the first group
 * Units    events in coupons that rust, not coupons exposed: divide by the share expected to rust; shares
 * Source   Schoenfeld 1981
 * Status   computed
 * Holds    from about 20 events on; below it is too hopeful
 * Refuses  a hazard ratio of 1 or not above 0, shares not between 0 and 1
 */
export function logRankSchoenfeld(plan: { hazardRatio: number; alpha: number; power: number; shareFirst?: number }) {
  const { hazardRatio, alpha, power, shareFirst = 0.5 } = plan;
  requirePositive("hazardRatio", hazardRatio);
  if (hazardRatio === 1)
    throw new InputError("hazardRatio", hazardRatio, "a ratio other than 1: no difference has no size");
  requireFraction("alpha", alpha);
  requireFraction("power", power);
  requireFraction("shareFirst", shareFirst);
  const z = normalQuantile(alpha / 2, "upper") + normalQuantile(power);
  const events = z ** 2 / (shareFirst * (1 - shareFirst) * Math.log(hazardRatio) ** 2);
  return { events, eventsNeeded: Math.ceil(events - 1e-9) };
}
