/** The looks of a stored trial, by coupon and day of exposure. */
import { exposureDay } from "./exposure-days.ts";
import { type LookSeries, lookSeries } from "./look-series.ts";
import { takenDownForItsState } from "./plain-table.ts";
import { lookPasses } from "./second-pass.ts";
import { isReplaced } from "./stand-ins.ts";
import type { Look, TakenDown, TrialRecord } from "./trial-record.ts";

/** What each look read, by day, in the order of the plan's places. */
export function trialLookSeries(record: TrialRecord, readingOf: (look: Look) => number): LookSeries[] {
  const takenDown = new Map<string, LookSeries["takenDown"]>();
  for (const { body } of record.takenDown) {
    if (isNeverOut(record, body.coupon)) continue;
    const day = exposureDay(record, body.coupon, body.when);
    if (day !== null)
      takenDown.set(body.coupon, { day, reason: takenDownWords(body), forItsState: takenDownForItsState(body.reason) });
  }
  const seen = lookPasses(record).first.flatMap(({ body }) => {
    const day = exposureDay(record, body.coupon, body.when);
    return day === null ? [] : [{ coupon: body.coupon, day, reading: readingOf(body) }];
  });
  const downUnseen = [...takenDown].map(([coupon, down]) => ({ coupon, day: down?.day ?? 0, reading: null }));
  const order = record.plan.places.map((place) => place.coupon);
  return lookSeries([...seen, ...downUnseen], takenDown).sort(
    (a, b) => order.indexOf(a.coupon) - order.indexOf(b.coupon),
  );
}

/** Lost or spoiled before its time outdoors began: it says nothing about how the finish held. */
const isNeverOut = (record: TrialRecord, coupon: string): boolean =>
  isReplaced(record, coupon) ||
  (record.plan.allocation.how === "drawn" && !record.putOut.some(({ body }) => body.coupons.includes(coupon)));

/** The reason in the user's own words, where it is none of the usual ones. */
export const takenDownWords = ({ reason, note }: TakenDown): string =>
  reason === "other" && note !== "" ? note : reason;

/**
 * The same looks under the planned day nearest to each, for a response on a fixed day: a look planned for day 42 and done
 * on day 43 answers for day 42. Of two looks for one planned day the nearer counts.
 */
export function byPlannedDay(series: readonly LookSeries[], lookDays: readonly number[]): LookSeries[] {
  if (lookDays.length === 0) return [...series];
  const plannedFor = (day: number) =>
    lookDays.reduce((best, planned) => (Math.abs(planned - day) < Math.abs(best - day) ? planned : best));
  return series.map((one) => {
    const byDay = new Map<number, { awayDays: number; readings: number[] }>();
    for (const { day, readings } of one.looks) {
      const planned = day === 0 ? 0 : plannedFor(day);
      const awayDays = Math.abs(planned - day);
      const other = byDay.get(planned);
      if (!other || awayDays < other.awayDays) byDay.set(planned, { awayDays, readings });
    }
    return { ...one, looks: [...byDay].map(([day, { readings }]) => ({ day, readings })) };
  });
}
