/** What times and values answer that were written down as such: the user's own numbers, one per coupon. */
import type { MeasuredResponse } from "./look-responses.ts";
import type { TimeRow, TimesTable, ValueRow, ValuesTable } from "./plain-table.ts";
import type { WearUnit } from "./wear-conditions.ts";

type Times = { unit: TimesTable["unit"] | WearUnit; rows: readonly Pick<TimeRow, "coupon" | "left" | "right">[] };

/** Days, or counts of wear, as they were counted. */
export function timesResponse({ rows, unit }: Times): MeasuredResponse {
  // Rust at some time after day 0: true of any coupon, so it says nothing of this one.
  const empty = rows.filter((row) => row.left === 0 && row.right === null);
  const told = rows.filter((row) => !empty.includes(row));
  return {
    response: unit === "days" ? "time to first rust" : "strokes to breakthrough",
    kind: "time",
    unit,
    better: "higher",
    ratio: false,
    detectionLimitPercent: null,
    scale: null,
    data: new Map(told.map(({ coupon, left, right }) => [coupon, { left, right }])),
    notes: empty.map(
      ({ coupon }) => `Coupon ${coupon} carries nothing: from 0 ${unit} on and no right end. It was left out.`,
    ),
  };
}

type Values = Pick<ValuesTable, "response" | "valueKind" | "better" | "scale"> & {
  rows: readonly Pick<ValueRow, "coupon" | "value">[];
};

const units = { ordinal: "classes", area: "%", continuous: "", binary: "" } as const;

/** Percent, classes, 0 and 1, or the values' own unit. */
export function valuesResponse(
  { rows, response, valueKind, better, scale }: Values,
  how: { ratio: boolean; detectionLimitPercent: number },
): MeasuredResponse {
  return {
    response,
    kind: valueKind,
    unit: units[valueKind],
    better,
    ratio: valueKind === "continuous" && how.ratio,
    detectionLimitPercent: valueKind === "area" ? how.detectionLimitPercent : null,
    scale,
    data: new Map(rows.map(({ coupon, value }) => [coupon, { value }])),
    notes: scale ? [`Classes: ${scale.best} is the best, ${scale.worst} the worst.`] : [],
  };
}
