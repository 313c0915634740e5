/** What rows must agree on among each other: one treatment for one coupon, one row for one look. */
import { daysBetween } from "../core/trial/calendar.ts";
import type { CouponCells, LookRow } from "../core/trial/plain-table.ts";
import { plainName, sameName } from "../core/trial/plain-table.ts";
import type { When } from "../core/trial/trial-record.ts";
import type { TableProblem } from "./plain-table-text.ts";

/** Of a coupon there is one of each, in whichever rows it is written. */
const onceForACoupon = {
  block: (row) => row.block,
  batch: (row) => row.batch,
  site: (row) => row.site,
  row: (row) => row.rackRow,
  column: (row) => row.rackColumn,
  edge: (row) => row.edge,
} as const satisfies Record<string, (row: CouponCells) => string | number | null>;

export function couponDisagreements(rows: readonly CouponCells[]): TableProblem[] {
  const first = new Map<string, CouponCells>();
  const found = new Map<string, { value: string | number; row: number }>();
  return rows.flatMap((row) => {
    const problems: TableProblem[] = [];
    const earlier = first.get(row.coupon);
    if (!earlier) first.set(row.coupon, row);
    else if (!sameName(earlier.treatment, row.treatment))
      problems.push({
        row: row.row,
        column: "treatment",
        value: row.treatment,
        expected: `"${earlier.treatment}", as row ${earlier.row} says of coupon ${row.coupon}; each coupon has one treatment`,
      });
    for (const [column, writtenIn] of Object.entries(onceForACoupon)) {
      const value = writtenIn(row);
      if (value === null) continue;
      const key = `${column}\n${row.coupon}`;
      const before = found.get(key);
      if (!before) found.set(key, { value, row: row.row });
      else if (before.value !== value)
        problems.push({
          row: row.row,
          column,
          value: String(value),
          expected: `${before.value}, as row ${before.row} says of coupon ${row.coupon}`,
        });
    }
    return problems;
  });
}

/** Block and batch are known of every coupon of a treatment, or of none of them. */
export function halfFilled(rows: readonly CouponCells[]): TableProblem[] {
  return (["block", "batch"] as const).flatMap((column) => {
    const filled = new Set(rows.filter((row) => row[column] !== null).map((row) => row.coupon));
    const treatments = new Set(rows.filter((row) => filled.has(row.coupon)).map((row) => plainName(row.treatment)));
    const lacking = new Map<string, CouponCells>();
    for (const row of rows)
      if (treatments.has(plainName(row.treatment)) && !filled.has(row.coupon) && !lacking.has(row.coupon))
        lacking.set(row.coupon, row);
    return [...lacking.values()].map((row) => ({
      row: row.row,
      column,
      value: "empty",
      expected: `the ${column} of coupon ${row.coupon}: other coupons of "${row.treatment}" have one`,
    }));
  });
}

export function twiceTheSame<Row extends CouponCells>(
  rows: readonly Row[],
  what: { keyOf: (row: Row) => string; column: string; expected: (earlier: Row) => string },
): TableProblem[] {
  const seen = new Map<string, Row>();
  return rows.flatMap((row) => {
    const key = what.keyOf(row);
    const earlier = seen.get(key);
    if (!earlier) seen.set(key, row);
    return earlier ? [{ row: row.row, column: what.column, value: row.coupon, expected: what.expected(earlier) }] : [];
  });
}

export const oneRowPerCoupon = (rows: readonly CouponCells[]): TableProblem[] =>
  twiceTheSame(rows, {
    keyOf: (row) => row.coupon,
    column: "coupon",
    expected: (earlier) => `one row for each coupon; row ${earlier.row} has the same one`,
  });

export const oneRowPerLook = (rows: readonly LookRow[]): TableProblem[] =>
  twiceTheSame(rows, {
    keyOf: (row) => [row.coupon, orderOf(row.when), plainName(row.face ?? "")].join("\n"),
    column: "coupon",
    expected: (earlier) =>
      `one row for each coupon, face and look; row ${earlier.row} has the same (two coupons with one number? a column face for the other side?)`,
  });

/** `taken_down` stands in a coupon's last row. */
export function looksAfterTakenDown(rows: readonly LookRow[]): TableProblem[] {
  const down = new Map<string, LookRow>();
  for (const row of rows) {
    const earlier = down.get(row.coupon);
    if (row.takenDown !== null && (!earlier || orderOf(row.when) < orderOf(earlier.when))) down.set(row.coupon, row);
  }
  return rows.flatMap((row) => {
    const end = down.get(row.coupon);
    if (!end || orderOf(row.when) <= orderOf(end.when)) return [];
    return [
      {
        row: row.row,
        column: "taken_down",
        value: row.coupon,
        expected: `no row of coupon ${row.coupon} after row ${end.row}, where it was taken down (${end.takenDown})`,
      },
    ];
  });
}

/** Dates and days of one table, as a number that grows with time. */
const orderOf = (when: When): number => ("date" in when ? daysBetween("1970-01-01", when.date) : when.day);
