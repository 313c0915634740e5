/** What the air did to coupons since they hang: hours by day, nights with dew, and the whole. */
import { climateLog } from "./climate-log.ts";
import { type ClimatePeriod, climatePeriods } from "./climate-periods.ts";
import type { LogRow } from "./log-row.ts";
import { dayBegins } from "./zone-clock.ts";

/** A day of the exposure, or the night that follows its evening (the first half night is that of day -1). */
export type ExposureDay = { day: number; hours: number; wetHours: number; dewHours: number; unknownHours: number };

export type ExposureClimate = {
  days: ExposureDay[];
  /** From noon to noon, and only those with dew in them. */
  dewNights: ExposureDay[];
  whole: { hours: number; wetHours: number; dewHours: number; dewNights: number; unknownHours: number };
};

export type ExposureSpan = {
  /** Date of day 0, YYYY-MM-DD, in the zone of the place. */
  start: string;
  zone: string;
  /** How many days, and where it ends earlier: now, while coupons still hang. */
  days: number;
  untilMs: number;
  thicknessMm: number;
};

const msPerHour = 3_600_000;

/** Fewer say nothing about how long each of them stood. */
const leastReadings = 2;

/**
 * Wet, dewy and unknown hours of each day and of the whole exposure; null without a log.
 *
 * Units    ms since 1970, °C, % and mm in; h out
 * Source   ISO 9223 for wetness; lumped body for dew
 * Status   computed
 */
export function exposureClimate(rows: readonly LogRow[], span: ExposureSpan): ExposureClimate | null {
  if (new Set(rows.map((row) => row.atMs)).size < leastReadings) return null;
  const log = climateLog(rows);
  const begins = (plusDays: number, hour: 0 | 12) => dayBegins(span.zone, { date: span.start, plusDays, hour });
  const endMs = Math.min(span.untilMs, begins(span.days, 0));
  const periodsFrom = (bounds: readonly number[]) =>
    climatePeriods(log, {
      boundsMs: [...bounds.filter((ms) => ms < endMs), endMs],
      thicknessMm: span.thicknessMm,
    });
  const midnights = Array.from({ length: span.days }, (_, day) => begins(day, 0));
  const noons = Array.from({ length: span.days }, (_, day) => begins(day, 12));
  const days = periodsFrom(midnights).map(asDay);
  // The morning of day 0 belongs to the night of the evening before.
  const dewNights = periodsFrom([midnights[0] ?? endMs, ...noons])
    .map((period, at) => asDay(period, at - 1))
    .filter((night) => night.dewHours > 0);
  const sum = (of: "hours" | "wetHours" | "dewHours" | "unknownHours") => days.reduce((all, day) => all + day[of], 0);
  return {
    days,
    dewNights,
    whole: {
      hours: sum("hours"),
      wetHours: sum("wetHours"),
      dewHours: sum("dewHours"),
      dewNights: dewNights.length,
      unknownHours: sum("unknownHours"),
    },
  };
}

function asDay({ fromMs, toMs, wetHours, dewHours, unknownHours }: ClimatePeriod, day: number): ExposureDay {
  return { day, hours: (toMs - fromMs) / msPerHour, wetHours, dewHours, unknownHours };
}
