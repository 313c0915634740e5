/** The looks at one coupon in order, faces folded into the worst one. The same for a table and for a stored trial. */
import { InputError } from "../input-error.ts";
import { daysBetween } from "./calendar.ts";
import { groupedByCoupon } from "./coupon-facts.ts";
import { type LooksTable, takenDownForItsState } from "./plain-table.ts";
import type { When } from "./trial-record.ts";

/** `readings`: one per face that was looked at; a percent or a class. */
export type DayLook = { day: number; readings: number[] };
export type LookSeries = {
  coupon: string;
  looks: DayLook[];
  /** `forItsState`: it counts as the worst state from that day on. Otherwise it is out of sight from then on. */
  takenDown: { day: number; forItsState: boolean; reason: string } | null;
};

export type SeenLook = { coupon: string; day: number; reading: number | null };

/** Looks of the same coupon on the same day are its faces. Coupons in the order they appear. */
export function lookSeries(
  looks: readonly SeenLook[],
  takenDown: ReadonlyMap<string, LookSeries["takenDown"]>,
): LookSeries[] {
  return [...groupedByCoupon(looks)].map(([coupon, own]) => {
    const byDay = new Map<number, number[]>();
    for (const { day, reading } of own) if (reading !== null) byDay.set(day, [...(byDay.get(day) ?? []), reading]);
    const inOrder = [...byDay].sort(([a], [b]) => a - b).map(([day, readings]) => ({ day, readings }));
    return { coupon, looks: inOrder, takenDown: takenDown.get(coupon) ?? null };
  });
}

/** The looks of a table by coupon: days from the start, percents or classes. */
export function tableLookSeries(table: LooksTable): LookSeries[] {
  const dayOf = (when: When) => dayFrom(when, table.from);
  const takenDown = new Map<string, LookSeries["takenDown"]>();
  for (const { coupon, when, takenDown: reason } of table.rows)
    if (reason !== null) takenDown.set(coupon, { day: dayOf(when), reason, forItsState: takenDownForItsState(reason) });
  return lookSeries(
    table.rows.map(({ coupon, when, reading }) => ({ coupon, day: dayOf(when), reading })),
    takenDown,
  );
}

/** Days since the start; a date needs the date of day 0. */
export function dayFrom(when: When, from: string | null): number {
  if ("day" in when) return when.day;
  if (from === null) throw new InputError("from", from, "the date of day 0, since looks have dates");
  return daysBetween(from, when.date);
}
