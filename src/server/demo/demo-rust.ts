/** How rusty a coupon of the demonstration truly is on a day. Invented: the renderer draws it, the measuring code must find it. */
import type { CouponPlace } from "../../core/trial/coupon-place.ts";
import type { Plan } from "../../core/trial/trial-record.ts";
import type { DemoTreatment } from "./scenario.ts";

/** The days are dealt to a treatment's coupons in the order of their numbers, which run along the blocks. */
export function rustedOnDayOf(truth: Readonly<Record<string, DemoTreatment>>, plan: Plan, place: CouponPlace): number {
  const sameTreatment = plan.places.filter((one) => one.treatment === place.treatment);
  return truth[place.treatment]!.rustedOnDay[sameTreatment.indexOf(place)]!;
}

/** Percent of face and edge band: slowly at first, then faster, and the edge goes before the face. */
export function trueShares(rustedOnDay: number, day: number): { rustedPercent: number; edgePercent: number } {
  const rustedPercent = spread(day - rustedOnDay, 70);
  return { rustedPercent, edgePercent: Math.min(rustedPercent + 15, spread((day - 0.6 * rustedOnDay) * 1.6, 90)) };
}

function spread(daysSince: number, upToPercent: number): number {
  return daysSince <= 0 ? 0 : Math.min(upToPercent, 0.08 + 0.22 * daysSince ** 1.3);
}
