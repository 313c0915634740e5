/** How long a place was wet, from a logger. */
import { type ClimateReading, type StandingSpan, standingSpans } from "./standing-spans.ts";

/** ISO 9223: wet above this humidity and above this temperature, both strictly (published). */
export const wetAbove = { rhPercent: 80, tempC: 0 } as const;

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
  const hours = { wetHours: 0, observedHours: 0, missingHours: 0 };
  for (const span of standingSpans({ series, intervalHours })) {
    if (span.air === null) hours.missingHours += span.durationHours;
    else hours.observedHours += span.durationHours;
    if (isWet(span)) hours.wetHours += span.durationHours;
  }
  return hours;
}

/**
 * Whether steel in the open is wet in this stretch by its air; unknown air is not called wet.
 *
 * Units    °C, %
 * Source   ISO 9223, definition of wetness
 * Status   published
 */
export function isWet({ air }: StandingSpan): boolean {
  return air !== null && air.rhPercent > wetAbove.rhPercent && air.tempC > wetAbove.tempC;
}
