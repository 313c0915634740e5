/** First rust of each coupon as an interval of days, for the strip of days and the first sentence. */
import { firstRust } from "../../core/trial/first-rust.ts";
import { isRusted } from "../../core/trial/look-responses.ts";
import { trialLookSeries } from "../../core/trial/trial-look-series.ts";
import { readingOf, readingsOfLook } from "../../core/trial/trial-readings.ts";
import type { Look, TrialRecord } from "../../core/trial/trial-record.ts";
import type { FirstRustSpan } from "./days-strip-layout.ts";

export function rustSpans(record: TrialRecord): FirstRustSpan[] {
  const written = record.firstRustTimes.map(({ body: { coupon, leftDays, rightDays } }) => ({
    coupon,
    left: leftDays,
    right: rightDays,
  }));
  const seen = firstRusts(record).flatMap(({ coupon, datum }) => (datum === null ? [] : [{ coupon, ...datum }]));
  return [...seen, ...written];
}

/** Coupons on which rust was seen and was gone at a later look, with those days. */
export const vanishedRust = (record: TrialRecord): { coupon: string; vanishedOnDays: number[] }[] =>
  firstRusts(record).filter(({ vanishedOnDays }) => vanishedOnDays.length > 0);

function firstRusts(record: TrialRecord) {
  const rusted = (look: Look) => (isRusted(readingOf(look), readingsOfLook(look, record)) ? 1 : 0);
  return trialLookSeries(record, rusted).map(({ coupon, looks, takenDown }) => {
    const seen = looks.map(({ day, readings }) => ({ day, rusted: readings.includes(1) }));
    const down = takenDown?.forItsState ? [{ day: takenDown.day, rusted: true }] : [];
    return { coupon, ...firstRust([...seen, ...down]) };
  });
}
