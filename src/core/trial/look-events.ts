/** The planned looks as days of the calendar, for whoever keeps one. */
import { InputError } from "../input-error.ts";
import { dateAfter } from "./calendar.ts";
import type { TrialRecord } from "./trial-record.ts";

export type LookEvent = {
  /** The same for the same look of the same coupons, also after its day or its coupons changed. */
  key: string;
  /** YYYY-MM-DD. */
  date: string;
  /** Look `number` of `of`. */
  number: number;
  of: number;
  /** Numbers only, in the order of the plan, which tells nothing of their treatments. */
  coupons: string[];
  /** An earlier wording of the plan had it, the present one has fewer looks: a calendar that took it in must lose it. */
  calledOff: boolean;
};

/**
 * One event for each planned look of coupons that went out together. Coupons that are not out yet are counted from
 * `restFrom`, the date on which they are meant to go out; spares and coupons taken down wait for no look.
 *
 * Refuses  a date to count from that is missing while nothing is out
 */
export function lookEvents(record: TrialRecord, restFrom: string | null): LookEvent[] {
  const lookDays = inOrder(record.plan.lookDays);
  const calledOffDays = longest(record.plans.map((one) => inOrder(one.body.plan.lookDays))).slice(lookDays.length);
  const groups = couponsByStart(record, restFrom);
  if (groups.size === 0 && restFrom === null)
    throw new InputError("from", restFrom, "the date on which the coupons go out: none is out yet (YYYY-MM-DD)");
  return [...groups]
    .flatMap(([start, { firstPlace, coupons }]) =>
      [...lookDays, ...calledOffDays].map((day, at) => ({
        key: `${record.id}-look-${at + 1}-from-place-${firstPlace}`,
        date: dateAfter(start, day),
        number: at + 1,
        of: lookDays.length,
        coupons,
        calledOff: at >= lookDays.length,
      })),
    )
    .sort((a, b) => a.date.localeCompare(b.date) || a.number - b.number);
}

function inOrder(days: readonly number[]): number[] {
  return [...new Set(days)].sort((a, b) => a - b);
}

function longest(lists: readonly number[][]): number[] {
  return lists.reduce((long, one) => (one.length > long.length ? one : long), []);
}

/** Coupons by the date of their day 0; a group is known by the place of its first coupon in the plan. */
function couponsByStart(record: TrialRecord, restFrom: string | null) {
  const startOf = new Map(record.putOut.flatMap(({ body }) => body.coupons.map((coupon) => [coupon, body.date])));
  const down = new Set(record.takenDown.map(({ body }) => body.coupon));
  const groups = new Map<string, { firstPlace: number; coupons: string[] }>();
  for (const [at, { coupon, spare }] of record.plan.places.entries()) {
    const start = startOf.get(coupon) ?? (spare ? null : restFrom);
    if (start === null) continue;
    const group = groups.get(start) ?? { firstPlace: at + 1, coupons: [] };
    groups.set(start, group);
    if (!down.has(coupon)) group.coupons.push(coupon);
  }
  return new Map([...groups].filter(([, { coupons }]) => coupons.length > 0));
}
