/** Where coupons stand once spares took over the places of lost ones. */
import type { CouponPlace } from "./coupon-place.ts";

export type Trade = { spare: string; for: string };

/**
 * The places as they stand now. The two trade: the spare gets block, place on the rack and what it is kept for, the lost one
 * is kept back. Each keeps its treatment and the batch in which it was coated. Whichever order they were written down in.
 */
export function placesAfter(places: readonly CouponPlace[], standIns: readonly Trade[]): CouponPlace[] {
  const waiting = [...standIns];
  let now = [...places];
  for (let next = 0; next >= 0; ) {
    next = waiting.findIndex((one) => now.some((place) => place.coupon === one.for && !place.spare));
    const [standIn] = next < 0 ? [] : waiting.splice(next, 1);
    if (standIn) now = traded(now, standIn);
  }
  return now;
}

function traded(places: readonly CouponPlace[], standIn: Trade): CouponPlace[] {
  const lost = places.find((one) => one.coupon === standIn.for);
  if (!lost) return [...places];
  const { block, rack, keptFor } = lost;
  return places.map((place) => {
    const { keptFor: _former, ...own } = place;
    if (place.coupon === standIn.spare)
      return { ...own, block, rack, spare: false, ...(keptFor === undefined ? {} : { keptFor }) };
    return place.coupon === standIn.for ? { ...own, block: null, rack: null, spare: true } : place;
  });
}
