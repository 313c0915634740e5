/** What the strip of days shows of one site of a trial. */
import { type ExposureClimate, exposureClimate } from "../../core/climate/exposure-climate.ts";
import type { LogRow } from "../../core/climate/log-row.ts";
import { dateAfter, daysBetween } from "../../core/trial/calendar.ts";
import { exposureDay } from "../../core/trial/exposure-days.ts";
import { isPast } from "../../core/trial/hanging-at-sites.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import type { FirstRustSpan } from "./days-strip-layout.ts";
import { rustSpans } from "./rust-spans.ts";
import { stripDays } from "./strip-days.ts";

export type SiteStrip = {
  site: string;
  /** Date of day 0: when the first coupons of this trial went out there. */
  start: string;
  /** The day after the last one of the strip. */
  endsBefore: string;
  days: number;
  looks: { day: number }[];
  firstRust: FirstRustSpan[];
  /** null: nothing hangs there any more. */
  nowDay: number | null;
};

/** `today`: the date on the wall. A closed trial's coupons are not waited for any more. */
export function siteStrip(record: TrialRecord, site: string, today: string): SiteStrip {
  const putOut = record.putOut.filter(({ body }) => body.site === site);
  const atSite = new Set(putOut.flatMap(({ body }) => body.coupons));
  const start = putOut.map(({ body }) => body.date).sort()[0] ?? today;
  const looks = record.looks.flatMap(({ body }) => {
    const day = atSite.has(body.coupon) ? exposureDay(record, body.coupon, body.when) : null;
    return day === null ? [] : [{ day }];
  });
  const down = new Set(record.takenDown.map(({ body }) => body.coupon));
  const hangs = !isPast(record) && [...atSite].some((coupon) => !down.has(coupon));
  const nowDay = hangs ? daysBetween(start, today) : null;
  const days = stripDays({ looks, plannedDays: record.plan.lookDays, nowDay });
  return {
    site,
    start,
    endsBefore: dateAfter(start, Math.ceil(days) + 1),
    days,
    looks,
    firstRust: rustSpans(record).filter((one) => atSite.has(one.coupon)),
    nowDay: nowDay !== null && nowDay <= days ? nowDay : null,
  };
}

export type DaysOfAir = Pick<ExposureClimate, "days" | "dewNights">;

/** The air of days that no logger saw: nobody knows any hour of them. */
export function unknownAir({ days, nowDay }: Pick<SiteStrip, "days" | "nowDay">): DaysOfAir {
  const past = nowDay === null ? Math.ceil(days) : nowDay + 1;
  const nobodyKnows = { hours: 24, wetHours: 0, dewHours: 0, unknownHours: 24 };
  return { days: Array.from({ length: past }, (_, day) => ({ day, ...nobodyKnows })), dewNights: [] };
}

/** The air of those days on the trial's own steel; null without a log. */
export function stripClimate(
  { start, days, nowDay }: SiteStrip,
  rows: readonly LogRow[],
  of: { thicknessMm: number; zone: string; nowMs: number },
): ExposureClimate | null {
  const { thicknessMm, zone } = of;
  const untilMs = nowDay === null ? Number.POSITIVE_INFINITY : of.nowMs;
  return exposureClimate(rows, { start, zone, days: Math.ceil(days), untilMs, thicknessMm });
}
