/**
 * A coupon whose time is known exactly, or that was taken away before it rusted.
 *
 * Units    days
 * Source   input rules of this project
 * Status   common practice
 */
import { InputError, requireList, requirePositive } from "../input-error.ts";

/** `event` true: rust at `days`; false: still clean then. */
export type TimedCoupon = { days: number; event: boolean };

/** Refuses an empty list, a time of 0 or less, and an event that is not true or false. */
export function requireTimedCoupons(argument: string, value: unknown): asserts value is TimedCoupon[] {
  requireList(argument, value);
  for (const [at, one] of value.entries()) {
    const name = `${argument}[${at}]`;
    if (typeof one !== "object" || one === null || !("days" in one) || !("event" in one))
      throw new InputError(name, one, "a coupon with days and event");
    requirePositive(`${name}.days`, one.days);
    if (typeof one.event !== "boolean")
      throw new InputError(`${name}.event`, one.event, "true (rust) or false (clean)");
  }
}
