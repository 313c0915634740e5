/** What a stored trial measured of one declared response, by coupon. */
import { InputError } from "../input-error.ts";
import type { DeclaredQuestion, ValueResponse } from "./declared-question.ts";
import { colourNotes, colourResults } from "./finish-colour.ts";
import { furtherReadingNotes, strokesOfCoupons, valuesOfCoupons } from "./further-readings.ts";
import {
  firstRustResponse,
  gradeResponse,
  type LookReadings,
  type MeasuredResponse,
  rustedAreaResponse,
} from "./look-responses.ts";
import type { LookSeries } from "./look-series.ts";
import { type RustScale, scaleTitles } from "./scale-ends.ts";
import { lookPasses } from "./second-pass.ts";
import type { SeenAs } from "./seen-as.ts";
import { tapeResponse } from "./tape-responses.ts";
import { byPlannedDay, trialLookSeries } from "./trial-look-series.ts";
import { readingOf, trialReadings } from "./trial-readings.ts";
import type {
  FinishColour,
  FirstRustTime,
  Look,
  MeasuredValue,
  Observed,
  TapeTest,
  TrialRecord,
  WearTest,
  Weighing,
} from "./trial-record.ts";
import { timesResponse, valuesResponse } from "./value-responses.ts";
import { countedUnit } from "./wear-conditions.ts";
import type { WeighedAs } from "./weighed-as.ts";
import { weighedResults } from "./weighing.ts";

export type Reading = Observed<Look | TapeTest | FirstRustTime | WearTest | MeasuredValue | Weighing | FinishColour>;

/** The observations that a declared response is answered from. */
export function readingsFor(record: TrialRecord, declared: DeclaredQuestion): Reading[] {
  switch (declared.response) {
    case "time to first rust":
      return [...lookPasses(record).first, ...record.firstRustTimes];
    case "rusted area":
    case "grade":
      return lookPasses(record).first;
    case "tape class":
      return record.tapeTests;
    case "strokes to breakthrough":
      return record.wearTests.filter(({ body }) => body.place === declared.place);
    case "value":
      if (declared.seen) return colourResults(record, declared.seen).map((one) => one.from);
      return declared.weighed
        ? weighedResults(record, declared.weighed).flatMap((one) => ("valueGM2" in one ? [one.from] : []))
        : record.values.filter(({ body }) => body.name === declared.name);
  }
}

/** Days, percent, classes, strokes, or the value's own unit. `compared`: coupons of the compared treatments. */
export function trialResponse(
  record: TrialRecord,
  declared: DeclaredQuestion,
  compared: ReadonlySet<string>,
): MeasuredResponse {
  switch (declared.response) {
    case "time to first rust":
      return firstRust(record);
    case "rusted area":
      return rustedAreaResponse(plannedSeries(record), trialReadings(record), fixedDay(record, declared, compared));
    case "grade":
      return gradeResponse(
        plannedSeries(record),
        { by: gradedFrom(trialReadings(record), declared.scale), scale: declared.scale },
        fixedDay(record, declared, compared),
      );
    case "tape class":
      return tapeResponse(record, declared.named ?? declared.response);
    case "strokes to breakthrough":
      return strokes(record, declared);
    case "value":
      return values(record, declared);
  }
}

/** From the looks, and of coupons without looks the time that was written down. */
function firstRust(record: TrialRecord): MeasuredResponse {
  const series = trialLookSeries(record, readingOf);
  const written = record.firstRustTimes.map(({ body }) => body);
  const looked = new Set(record.looks.map(({ body }) => body.coupon));
  const twice = written.find(({ coupon }) => looked.has(coupon));
  if (twice)
    throw new InputError("coupon", twice.coupon, "looks or a written time to first rust, not both of one coupon");
  const times = timesResponse({
    unit: "days",
    rows: written.map(({ coupon, leftDays, rightDays }) => ({ coupon, left: leftDays, right: rightDays })),
  });
  if (series.length === 0) return times;
  const own = new Set(written.map(({ coupon }) => coupon));
  const seen = firstRustResponse(
    series.filter(({ coupon }) => !own.has(coupon)),
    trialReadings(record),
  );
  return { ...seen, data: new Map([...seen.data, ...times.data]), notes: [...seen.notes, ...times.notes] };
}

const plannedSeries = (record: TrialRecord): LookSeries[] =>
  byPlannedDay(trialLookSeries(record, readingOf), record.plan.lookDays);

/** A coupon kept back or tested indoors has no looks; it must not hold up the last common day. */
function fixedDay(record: TrialRecord, { atDay }: DeclaredQuestion, compared: ReadonlySet<string>) {
  const looked = [...record.looks, ...record.takenDown].map(({ body }) => body.coupon);
  return { atDay, compared: new Set(looked.filter((coupon) => compared.has(coupon))) };
}

function gradedFrom(readings: LookReadings, scale: RustScale): LookReadings["by"] {
  if (readings.by === "rating" && readings.scale !== scale)
    throw new InputError("scale", scaleTitles[scale], `${scaleTitles[readings.scale]}, on which the looks were graded`);
  return readings.by;
}

function strokes(
  record: TrialRecord,
  declared: Extract<DeclaredQuestion, { response: "strokes to breakthrough" }>,
): MeasuredResponse {
  const tests = record.wearTests.flatMap(({ body }) => (body.place === declared.place ? [body] : []));
  const response = timesResponse({ unit: countedUnit(tests), rows: strokesOfCoupons(tests) });
  return { ...response, notes: [...response.notes, ...furtherReadingNotes(tests)] };
}

function values(record: TrialRecord, declared: ValueResponse): MeasuredResponse {
  if (declared.weighed) return weighedResponse(record, declared, declared.weighed);
  if (declared.seen) return colourResponse(record, declared, declared.seen);
  const { plan, values: all } = record;
  const { name, kind, better, scale, ratio, unit } = declared;
  const readings = all.flatMap(({ body }) => (body.name === name ? [body] : []));
  const rows = valuesOfCoupons(readings, declared);
  const how = { ratio, detectionLimitPercent: plan.rustThresholdPercent };
  const response = valuesResponse({ rows, response: name, valueKind: kind, better, scale }, how);
  const notes = [...response.notes, ...furtherReadingNotes(readings)];
  return { ...response, notes, ...(kind === "continuous" ? { unit } : {}) };
}

/** How dark, how even or how much changed, by photographs with the card. */
function colourResponse(record: TrialRecord, declared: ValueResponse, seen: SeenAs): MeasuredResponse {
  const { name, better, ratio, unit } = declared;
  const rows = colourResults(record, seen);
  const how = { ratio, detectionLimitPercent: record.plan.rustThresholdPercent };
  const response = valuesResponse({ rows, response: name, valueKind: "continuous", better, scale: null }, how);
  return { ...response, unit, notes: [...response.notes, ...colourNotes(record, seen)] };
}

/** Raw weighings to g/m², coupon by coupon; where a balance cannot tell, the coupon carries nothing, and that is said. */
function weighedResponse(record: TrialRecord, declared: ValueResponse, as: WeighedAs): MeasuredResponse {
  const { name, better, ratio, unit } = declared;
  const results = weighedResults(record, as);
  const rows = results.flatMap((one) => ("valueGM2" in one ? [{ coupon: one.coupon, value: one.valueGM2 }] : []));
  const how = { ratio, detectionLimitPercent: record.plan.rustThresholdPercent };
  const response = valuesResponse({ rows, response: name, valueKind: "continuous", better, scale: null }, how);
  const refused = new Set(results.flatMap((one) => (one.standing === "refused" ? [one.sentence] : [])));
  const notes = [...refused].map((sentence) => {
    const coupons = results.filter((one) => one.sentence === sentence).map(({ coupon }) => coupon);
    return `Coupon ${coupons.join(", ")}: ${sentence} Left out.`;
  });
  return { ...response, unit, notes: [...response.notes, ...notes] };
}
