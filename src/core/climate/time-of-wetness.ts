/** How long a place was wet, from a logger. */
import { InputError, requireFinite, requireList, requirePercent, requirePositive } from "../input-error.ts";
import { requireBetween } from "./require-between.ts";

/** A logger's reading; null where the sensor gave nothing. */
export type ClimateReading = { elapsedHours: number; tempC: number | null; rhPercent: number | null };

/** ISO 9223: wet above this humidity and above this temperature, both strictly (published). */
export const wetAbove = { rhPercent: 80, tempC: 0 } as const;

/** A reading is not carried further than this many nominal intervals (rule of this project). */
export const bridgedIntervals = 2;

/**
 * Hours wet, observed and missing.
 *
 * Method   climate.timeOfWetness
 * Formula  a reading stands until the next one; a gap of more than two intervals counts as one interval and the rest is missing;
 *          the last reading stands for one interval; wet when RH > 80 % and T > 0 °C
 * Units    h, °C, %; readings in ascending time
 * Source   ISO 9223, definition of wetness; bridging of gaps is a rule of this project
 * Status   published
 * Holds    open air or under a roof alike; salt makes steel wet at lower humidity and below 0 °C, which this misses
 * Refuses  no readings; times that do not ascend; a value that is not a number (null says missing); humidity outside 0 to 100 %
 */
export function timeOfWetness({ series, intervalHours }: { series: ClimateReading[]; intervalHours: number }): {
  wetHours: number;
  observedHours: number;
  missingHours: number;
} {
  requireList("series", series);
  requirePositive("intervalHours", intervalHours);
  const hours = { wetHours: 0, observedHours: 0, missingHours: 0 };
  for (const [at, reading] of series.entries()) {
    requireReading(reading, at);
    // The last reading stands for one interval: nobody knows how long it lasted.
    const span = at + 1 < series.length ? spanToNext(series, at) : intervalHours;
    // Differences of decimal hours carry rounding: two intervals of 0.1 h are not a gap.
    const stands = span > bridgedIntervals * intervalHours * (1 + 1e-9) ? intervalHours : span;
    if (reading.tempC === null || reading.rhPercent === null) {
      hours.missingHours += span;
      continue;
    }
    hours.observedHours += stands;
    hours.missingHours += span - stands;
    if (reading.rhPercent > wetAbove.rhPercent && reading.tempC > wetAbove.tempC) hours.wetHours += stands;
  }
  return hours;
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
