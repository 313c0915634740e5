/** For how long each reading of a logger stands, and where nobody knows. */
import { InputError, requireFinite, requireList, requirePercent, requirePositive } from "../input-error.ts";
import { requireBetween } from "./require-between.ts";

/** A logger's reading; null where the sensor gave nothing. */
export type ClimateReading = { elapsedHours: number; tempC: number | null; rhPercent: number | null };

/** A stretch of time with the air that was read in it; null: nobody knows. */
export type StandingSpan = {
  fromHours: number;
  durationHours: number;
  air: { tempC: number; rhPercent: number } | null;
};

/** A reading is not carried further than this many nominal intervals (rule of this project). */
export const bridgedIntervals = 2;

/**
 * Whether a step from one reading to the next is a gap: more than the intervals over which a reading is carried.
 *
 * Units    h
 * Source   rule of this project
 * Status   common practice
 */
export function isGap({ stepHours, intervalHours }: { stepHours: number; intervalHours: number }): boolean {
  // Differences of decimal hours carry rounding: two intervals of 0.1 h are not a gap.
  return stepHours > bridgedIntervals * intervalHours * (1 + 1e-9);
}

/**
 * The stretches of time that readings stand for, in their order and without holes: a reading stands until the next one; over
 * a gap it stands for one interval and the rest is unknown; the last one stands for one interval.
 *
 * Units    h, °C, %; readings in ascending time
 * Source   rule of this project for gaps
 * Status   common practice
 */
export function standingSpans({
  series,
  intervalHours,
}: {
  series: ClimateReading[];
  intervalHours: number;
}): StandingSpan[] {
  requireList("series", series);
  requirePositive("intervalHours", intervalHours);
  return series.flatMap((reading, at) => {
    requireReading(reading, at);
    const { elapsedHours: fromHours, tempC, rhPercent } = reading;
    // The last reading stands for one interval: nobody knows how long it lasted.
    const span = at + 1 < series.length ? spanToNext(series, at) : intervalHours;
    if (tempC === null || rhPercent === null) return [{ fromHours, durationHours: span, air: null }];
    const air = { tempC, rhPercent };
    if (!isGap({ stepHours: span, intervalHours })) return [{ fromHours, durationHours: span, air }];
    return [
      { fromHours, durationHours: intervalHours, air },
      { fromHours: fromHours + intervalHours, durationHours: span - intervalHours, air: null },
    ];
  });
}

function requireReading({ elapsedHours, tempC, rhPercent }: ClimateReading, at: number): void {
  requireFinite(`series[${at}].elapsedHours`, elapsedHours);
  if (tempC !== null)
    requireBetween(`series[${at}].tempC`, tempC, { least: -273.15, most: 1000, because: "or null for no reading" });
  if (rhPercent !== null) requirePercent(`series[${at}].rhPercent`, rhPercent);
}

function spanToNext(series: ClimateReading[], at: number): number {
  const next = series[at + 1]!.elapsedHours;
  const span = next - series[at]!.elapsedHours;
  if (!(span > 0)) throw new InputError(`series[${at + 1}].elapsedHours`, next, "a time after the reading before");
  return span;
}
