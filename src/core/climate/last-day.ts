/** The last 24 hours of a site, hour by hour. */
import { climateLog } from "./climate-log.ts";
import { climatePeriods } from "./climate-periods.ts";
import type { LogRow } from "./log-row.ts";

export type LastDay = {
  endsMs: number;
  /** false: the log ends more than a day before now, and these are its own last hours. */
  endsNow: boolean;
  wetHours: number;
  unknownHours: number;
  hours: { wetHours: number; unknownHours: number }[];
};

const hoursOfDay = 24;
const msPerHour = 3_600_000;

/** Wetness does not ask how thick the steel is; some sheet has to be named. */
const anySheetMm = 1;

/**
 * Wet and unknown hours of the last day: up to now, or up to the end of a log that ended longer ago. Null without a log.
 *
 * Units    ms since 1970, °C, % in; h out
 * Source   ISO 9223, definition of wetness
 * Status   computed
 */
export function lastDay(rows: readonly LogRow[], nowMs: number): LastDay | null {
  if (new Set(rows.map((row) => row.atMs)).size < 2) return null;
  const log = climateLog(rows);
  const logEndsMs = Math.round(log.startMs + (log.series.at(-1)!.elapsedHours + log.intervalHours) * msPerHour);
  const endsNow = logEndsMs > nowMs - hoursOfDay * msPerHour;
  const endsMs = endsNow ? nowMs : logEndsMs;
  const boundsMs = Array.from({ length: hoursOfDay + 1 }, (_, hour) => endsMs - (hoursOfDay - hour) * msPerHour);
  const hours = climatePeriods(log, { boundsMs, thicknessMm: anySheetMm }).map(({ wetHours, unknownHours }) => ({
    wetHours,
    unknownHours,
  }));
  const sum = (of: "wetHours" | "unknownHours") => hours.reduce((all, hour) => all + hour[of], 0);
  return { endsMs, endsNow, wetHours: sum("wetHours"), unknownHours: sum("unknownHours"), hours };
}
