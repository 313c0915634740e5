/** Which header means which column. Names are read without regard to case, spaces or underscores. */
import type { TableShape } from "./plain-table-text.ts";

/** Columns that make a table one of looks, of times or of values. */
export const readingColumns = [
  "day",
  "date",
  "rusted_percent",
  "rating",
  "word",
  "face",
  "edge_percent",
  "taken_down",
  "left_days",
  "right_days",
  "left_strokes",
  "right_strokes",
  "value",
] as const;

/** Columns that say something about a coupon in every kind of table. */
export const couponColumns = [
  "coupon",
  "treatment",
  "block",
  "batch",
  "site",
  "row",
  "column",
  "edge",
  "inspector",
  "deviation",
] as const;

export type ColumnName = (typeof readingColumns)[number] | (typeof couponColumns)[number];

/** Columns that hold numbers: the decimal mark of the table is told from them. */
export const numberColumns: readonly ColumnName[] = [
  "day",
  "rusted_percent",
  "rating",
  "edge_percent",
  "left_days",
  "right_days",
  "left_strokes",
  "right_strokes",
  "value",
];

export const plainHeader = (header: string): string => header.replace(/[\s_]+/g, "").toLowerCase();

const byPlainHeader = new Map<string, ColumnName>(
  [...readingColumns, ...couponColumns].map((name) => [plainHeader(name), name]),
);

export const columnOf = (header: string): ColumnName | null => byPlainHeader.get(plainHeader(header)) ?? null;

/** What a complete table of each kind needs beside `coupon` and `treatment`: one column of each group. */
const needs = {
  looks: [
    ["day", "date"],
    ["rusted_percent", "rating", "word"],
  ],
  times: [["left_days"], ["right_days"]],
  strokes: [["left_strokes"], ["right_strokes"]],
  values: [["value"]],
} as const satisfies Record<string, readonly (readonly ColumnName[])[]>;
export type TableForm = keyof typeof needs;

/** The forms for which the columns suffice; one is right, none and several are to be refused. */
export function formsOf(columns: readonly (ColumnName | null)[]): TableForm[] {
  return (Object.keys(needs) as TableForm[]).filter((form) =>
    needs[form].every((group) => group.some((name) => columns.includes(name))),
  );
}

export const expectedForms =
  "day or date with rusted_percent, rating or word (looks); left_days and right_days, or left_strokes and right_strokes (times); or value (values)";

/** More than any notebook holds; a logger's file is not a plain table. */
const maxTableRows = 50_000;

export const plainTableShape: TableShape = {
  columnOf,
  fits: (columns) => columns.includes("coupon") && columns.includes("treatment"),
  expected: "the columns coupon and treatment",
  maxRows: maxTableRows,
};
