/** What looks answer: time to first rust, or rusted area or grade on a fixed day. The same for a table and a stored trial. */
import { InputError } from "../input-error.ts";
import { valuesOnDay } from "./fixed-day-responses.ts";
import type { LookSeries } from "./look-series.ts";
import type { Question, TimeDatum, ValueDatum } from "./question.ts";
import { gradeOnScale } from "./rust-scale-grade.ts";
import { isWorse, type RustScale, type ScaleEnds, scaleEnds, scaleTitles } from "./scale-ends.ts";
import { timesToFirstRust } from "./time-responses.ts";

/** One datum per coupon, with what a question says of its response. */
export type MeasuredResponse = Pick<
  Question,
  "response" | "kind" | "unit" | "better" | "ratio" | "detectionLimitPercent" | "scale"
> & { data: ReadonlyMap<string, TimeDatum | ValueDatum>; notes: string[] };

/** Percent of a face; strictly above it a face counts as rusted, at or below it nothing can be seen. */
export const usualRustThresholdPercent = 0.01;

/** All looks of one table or trial read alike: in percents, or in classes of one scale. */
export type LookReadings = { by: "percent"; thresholdPercent: number } | { by: "rating"; scale: RustScale };

/** Percent strictly above the threshold, or any class worse than the best. */
export const isRusted = (reading: number, readings: LookReadings): boolean =>
  readings.by === "percent" ? reading > readings.thresholdPercent : reading !== scaleEnds[readings.scale].best;

/** Days from the start of exposure; the worst face of a coupon counts. */
export function firstRustResponse(series: readonly LookSeries[], readings: LookReadings): MeasuredResponse {
  const { data, notes } = timesToFirstRust(series, (reading) => isRusted(reading, readings));
  const judged =
    readings.by === "rating"
      ? [`Rust: any class worse than ${scaleEnds[readings.scale].best} on ${scaleTitles[readings.scale]}.`]
      : [];
  return {
    response: "time to first rust",
    kind: "time",
    unit: "days",
    better: "higher",
    ratio: false,
    detectionLimitPercent: null,
    scale: null,
    data,
    notes: [...judged, ...notes],
  };
}

type FixedDay = { atDay: number | null; compared: ReadonlySet<string> };

/** Percent of the worst face; a coupon taken down for its state counts as wholly rusted. */
export function rustedAreaResponse(
  series: readonly LookSeries[],
  readings: LookReadings,
  fixed: FixedDay,
): MeasuredResponse {
  if (readings.by === "rating")
    throw new InputError("response", "area", '"time" or "grade": a rating does not say how large the area is');
  const { data, notes } = valuesOnDay(series, fixed, { worstOf: (percents) => Math.max(...percents), worst: 100 });
  return {
    response: "rusted area",
    kind: "area",
    unit: "%",
    better: "lower",
    ratio: false,
    detectionLimitPercent: readings.thresholdPercent,
    scale: null,
    data,
    notes,
  };
}

/** Classes of the worst face; a coupon taken down for its state counts as the worst class. */
export function gradeResponse(
  series: readonly LookSeries[],
  readings: { by: "percent" | "rating"; scale: RustScale },
  fixed: FixedDay,
): MeasuredResponse {
  const ends = scaleEnds[readings.scale];
  const classOf = (reading: number) => (readings.by === "percent" ? gradeOnScale(readings.scale, reading) : reading);
  const { data, notes } = valuesOnDay(series, fixed, {
    worstOf: (all) => worstClass(all.map(classOf), ends),
    worst: ends.worst,
  });
  return {
    response: "grade",
    kind: "ordinal",
    unit: "classes",
    better: ends.best > ends.worst ? "higher" : "lower",
    ratio: false,
    detectionLimitPercent: null,
    scale: ends,
    data,
    notes: [`Grades on ${scaleTitles[readings.scale]}, ${ends.best} the best; the worst face counts.`, ...notes],
  };
}

export const worstClass = (classes: readonly number[], ends: ScaleEnds): number =>
  classes.reduce((worst, one) => (isWorse(one, worst, ends) ? one : worst));
