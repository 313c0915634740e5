/** A log cut into stretches of the calendar: hours of a day, days of an exposure. */
import type { ClimateLog } from "./climate-log.ts";
import { standingSpans } from "./standing-spans.ts";
import { steelCondensation, stillAirWM2K } from "./steel-condensation.ts";
import { isWet } from "./time-of-wetness.ts";

export type ClimatePeriod = {
  fromMs: number;
  toMs: number;
  wetHours: number;
  /** With dew on a steel sheet. */
  dewHours: number;
  unknownHours: number;
};

const msPerHour = 3_600_000;

/**
 * Wet, dewy and unknown hours between each bound and the next. Before the first reading and after the last one's interval
 * nobody knows.
 *
 * Units    ms since 1970, ascending; mm; h
 * Source   ISO 9223 for wetness; lumped body for dew
 * Status   computed
 */
export function climatePeriods(
  log: ClimateLog,
  { boundsMs, thicknessMm }: { boundsMs: readonly number[]; thicknessMm: number },
): ClimatePeriod[] {
  const hourOf = (ms: number) => (ms - log.startMs) / msPerHour;
  const spans = standingSpans(log);
  const observed = hoursBetween(spans.filter((span) => span.air !== null));
  const wet = hoursBetween(spans.filter(isWet));
  const dew = hoursBetween(steelCondensation({ ...log, thicknessMm, heatTransferWM2K: stillAirWM2K }));
  return boundsMs.slice(1).map((toMs, at) => {
    const fromMs = boundsMs[at]!;
    const within = { fromHours: hourOf(fromMs), toHours: hourOf(toMs) };
    return {
      fromMs,
      toMs,
      wetHours: wet(within),
      dewHours: dew(within),
      unknownHours: (toMs - fromMs) / msPerHour - observed(within),
    };
  });
}

type Stretch = { fromHours: number; durationHours: number };

/** Asked for one period after another, in ascending time, it goes through the stretches once. */
function hoursBetween(stretches: readonly Stretch[]) {
  let first = 0;
  return ({ fromHours, toHours }: { fromHours: number; toHours: number }): number => {
    while (first < stretches.length && endOf(stretches[first]!) <= fromHours) first++;
    let hours = 0;
    for (let at = first; at < stretches.length && stretches[at]!.fromHours < toHours; at++) {
      const stretch = stretches[at]!;
      hours += Math.min(toHours, endOf(stretch)) - Math.max(fromHours, stretch.fromHours);
    }
    return hours;
  };
}

const endOf = ({ fromHours, durationHours }: Stretch): number => fromHours + durationHours;
