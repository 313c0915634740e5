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
  const inMs = (stretch: { fromHours: number; durationHours: number }): Stretch => ({
    fromMs: Math.round(log.startMs + stretch.fromHours * msPerHour),
    toMs: Math.round(log.startMs + (stretch.fromHours + stretch.durationHours) * msPerHour),
  });
  const spans = standingSpans(log);
  const observed = msWithin(spans.filter((span) => span.air !== null).map(inMs));
  const wet = msWithin(spans.filter(isWet).map(inMs));
  const dew = msWithin(steelCondensation({ ...log, thicknessMm, heatTransferWM2K: stillAirWM2K }).map(inMs));
  return boundsMs.slice(1).map((toMs, at) => {
    const fromMs = boundsMs[at]!;
    const within = { fromMs, toMs };
    return {
      fromMs,
      toMs,
      wetHours: wet(within) / msPerHour,
      dewHours: dew(within) / msPerHour,
      // Whole milliseconds on both sides: nothing is left over where all was observed.
      unknownHours: (toMs - fromMs - observed(within)) / msPerHour,
    };
  });
}

type Stretch = { fromMs: number; toMs: number };

/** Asked for one period after another, in ascending time, it goes through the stretches once. */
function msWithin(stretches: readonly Stretch[]) {
  let first = 0;
  return ({ fromMs, toMs }: Stretch): number => {
    while (first < stretches.length && stretches[first]!.toMs <= fromMs) first++;
    let sum = 0;
    for (let at = first; at < stretches.length && stretches[at]!.fromMs < toMs; at++)
      sum += Math.min(toMs, stretches[at]!.toMs) - Math.max(fromMs, stretches[at]!.fromMs);
    return sum;
  };
}
