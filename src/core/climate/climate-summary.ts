/** A whole log in the numbers that a season is judged by. */
import { timeOfWetnessClass } from "./climate-classes.ts";
import type { ClimateLog } from "./climate-log.ts";
import { steelCondensation, stillAirWM2K } from "./steel-condensation.ts";
import { timeOfWetness } from "./time-of-wetness.ts";
import { wallClockMs } from "./zone-clock.ts";

/** From fewer observed days a year is not told from the log. */
export const leastObservedDays = 330;

const hoursPerDay = 24;
const hoursPerYear = 8760;
const msPerHour = 3_600_000;

export type ClimateSummary = {
  readings: number;
  duplicates: number;
  intervalHours: number;
  observedHours: number;
  missingHours: number;
  wetHours: number;
  /** null: fewer than 330 days were observed, and then there is no class. */
  wetHoursPerYear: number | null;
  timeOfWetnessClass: ReturnType<typeof timeOfWetnessClass> | null;
  condensation: { thicknessMm: number; heatTransferWM2K: number; hours: number; nights: number };
  suspect: { from: string; to: string; what: string }[];
};

/**
 * Hours wet, hours and nights with dew on a steel sheet, hours unknown, and what is suspect. A night runs from noon to noon.
 *
 * Units    h, mm, W/m²K; times as UTC instants
 * Source   ISO 9223 for wetness and its classes; the share of a year from 330 observed days up is a rule of this project
 * Status   computed
 */
export function climateSummary(log: ClimateLog, of: { thicknessMm: number; zone: string }): ClimateSummary {
  const { wetHours, observedHours, missingHours } = timeOfWetness(log);
  const heatTransferWM2K = stillAirWM2K;
  const dewy = steelCondensation({ ...log, thicknessMm: of.thicknessMm, heatTransferWM2K });
  const fullYear = observedHours >= leastObservedDays * hoursPerDay;
  const wetHoursPerYear = fullYear ? (wetHours * hoursPerYear) / observedHours : null;
  return {
    readings: log.readings,
    duplicates: log.duplicates,
    intervalHours: log.intervalHours,
    observedHours,
    missingHours,
    wetHours,
    wetHoursPerYear,
    timeOfWetnessClass: wetHoursPerYear === null ? null : timeOfWetnessClass(wetHoursPerYear),
    condensation: {
      thicknessMm: of.thicknessMm,
      heatTransferWM2K,
      hours: dewy.reduce((sum, span) => sum + span.durationHours, 0),
      nights: nightsOf(dewy, log.startMs, of.zone),
    },
    suspect: log.suspects.map(({ fromMs, toMs, what }) => ({ from: instant(fromMs), to: instant(toMs), what })),
  };
}

function nightsOf(
  dewy: readonly { fromHours: number; durationHours: number }[],
  startMs: number,
  zone: string,
): number {
  const nightAt = (hours: number) =>
    Math.floor((wallClockMs(zone, startMs + hours * msPerHour) / msPerHour - hoursPerDay / 2) / hoursPerDay);
  const nights = new Set<number>();
  for (const { fromHours, durationHours } of dewy) {
    // What ends at noon belongs to the night that ends there.
    const last = nightAt(fromHours + durationHours - 1e-6);
    for (let night = nightAt(fromHours); night <= last; night++) nights.add(night);
  }
  return nights.size;
}

const instant = (ms: number): string => new Date(ms).toISOString().replace(".000Z", "Z");
