/** Rusted area or grade of each coupon on one day of looks. */
import { InputError } from "../input-error.ts";
import type { LookSeries } from "./look-series.ts";
import type { ValueDatum } from "./question.ts";
import type { Responses } from "./time-responses.ts";

/** The worst of a coupon's faces on a day, and what a coupon counts that was taken down for its state. */
export type FixedDayMeasure = { worstOf: (readings: readonly number[]) => number; worst: number };

/**
 * One value per coupon on the day asked for, or else on the last look that every compared coupon not taken down
 * before it has. Days from the start.
 */
export function valuesOnDay(
  series: readonly LookSeries[],
  ask: { atDay: number | null; compared: ReadonlySet<string> },
  measure: FixedDayMeasure,
): Responses<ValueDatum> & { day: number } {
  const compared = series.filter((one) => ask.compared.has(one.coupon));
  const day = ask.atDay ?? lastCommonDay(compared);
  requireDayOfLooks(series, day);
  const data = new Map<string, ValueDatum>();
  const notes = [
    ask.atDay === null
      ? `Day ${day} was taken: the last look that every coupon still out has.`
      : `Read on day ${day}, as asked.`,
  ];
  for (const one of series) {
    const value = valueOn(one, day, measure);
    if (value !== null) data.set(one.coupon, { value });
    notes.push(...leftOrWorst(one, day, value));
  }
  return { data, notes, day };
}

function valueOn({ looks, takenDown }: LookSeries, day: number, measure: FixedDayMeasure): number | null {
  if (takenDown?.forItsState && takenDown.day <= day) return measure.worst;
  const readings = looks.find((look) => look.day === day)?.readings;
  return readings ? measure.worstOf(readings) : null;
}

function leftOrWorst({ coupon, takenDown }: LookSeries, day: number, value: number | null): string[] {
  if (takenDown && takenDown.day <= day && takenDown.forItsState)
    return [
      `Coupon ${coupon} was taken down on day ${takenDown.day} for its state (${takenDown.reason}): it counts as the worst.`,
    ];
  if (value !== null) return [];
  const why =
    takenDown && takenDown.day <= day ? `taken down on day ${takenDown.day}: ${takenDown.reason}` : "not looked at";
  return [`Coupon ${coupon} was left out on day ${day} (${why}).`];
}

function lastCommonDay(compared: readonly LookSeries[]): number {
  const days = [...new Set(compared.flatMap(({ looks }) => looks.map((look) => look.day)))].sort((a, b) => b - a);
  const common = days.find((day) =>
    compared.every(
      ({ looks, takenDown }) => looks.some((look) => look.day === day) || (takenDown !== null && takenDown.day < day),
    ),
  );
  if (common === undefined)
    throw new InputError("at", null, "a day: there is no look that every coupon still out has", "at");
  return common;
}

function requireDayOfLooks(series: readonly LookSeries[], day: number): void {
  const days = [...new Set(series.flatMap(({ looks }) => looks.map((look) => look.day)))].sort((a, b) => a - b);
  if (!days.includes(day)) throw new InputError("at", day, `a day of looks: ${days.join(", ")}`);
}
