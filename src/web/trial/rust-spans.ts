/** First rust of each coupon as an interval of days, for the strip of days and the first sentence. */
import { firstRust } from "../../core/trial/first-rust.ts";
import { trialLookSeries } from "../../core/trial/trial-look-series.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import type { FirstRustSpan } from "../../report/figures/days-strip-layout.ts";

export function rustSpans(record: TrialRecord): FirstRustSpan[] {
  const threshold = record.plan.rustThresholdPercent;
  return trialLookSeries(record).flatMap(({ coupon, looks, takenDown }) => {
    const seen = looks.map(({ day, readings }) => ({ day, rusted: readings.some((percent) => percent > threshold) }));
    const down = takenDown?.forItsState ? [{ day: takenDown.day, rusted: true }] : [];
    const { datum } = firstRust([...seen, ...down]);
    return datum === null ? [] : [{ coupon, ...datum }];
  });
}
