/** On which day of its exposure something happened to a coupon: days count from when it was put out. */
import { daysBetween } from "./calendar.ts";
import type { TrialRecord, When } from "./trial-record.ts";

/**
 * The date of a coupon's day 0. Where nobody wrote down when coupons were put out (a trial made of a table), the
 * earliest date of the trial. null: nothing has a date.
 */
export function exposureStart(record: TrialRecord, coupon: string): string | null {
  const putOut = record.putOut.find(({ body }) => body.coupons.includes(coupon));
  if (putOut) return putOut.body.date;
  const dates = [...record.looks, ...record.takenDown].flatMap(({ body }) =>
    "date" in body.when ? [body.when.date] : [],
  );
  return dates.sort()[0] ?? null;
}

/** Days; null: a date, and no day 0 to count from. */
export function exposureDay(record: TrialRecord, coupon: string, when: When): number | null {
  if ("day" in when) return when.day;
  const start = exposureStart(record, coupon);
  return start === null ? null : daysBetween(start, when.date);
}
