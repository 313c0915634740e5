/** One row's cells by column; each that cannot be read is written down with what was expected. */
import type { ColumnName } from "./plain-table-columns.ts";
import { type DecimalMark, readNumber } from "./plain-table-number.ts";
import type { SettledBy, TableProblem, TableRecord } from "./plain-table-text.ts";

export type RowCells = {
  row: number;
  /** null: the cell is missing (empty or NA), or the table has no such column. */
  text: (column: ColumnName) => string | null;
  required: (column: ColumnName, expected: string) => string;
  number: (column: ColumnName, wanted: NumberWanted) => number | null;
  /** A column that the user named, by its header; a number where it reads as one. */
  named: (header: string) => string | number | null;
  problem: (column: ColumnName | null, value: string, expected: string, settledBy?: SettledBy) => void;
  fits: () => boolean;
};
type NumberWanted = { expected: string; fits: (number: number) => boolean };

export const wanted = {
  percent: { expected: "a percentage from 0 to 100", fits: (number) => number >= 0 && number <= 100 },
  notNegative: { expected: "a number of 0 or more", fits: (number) => number >= 0 },
  any: { expected: "a number", fits: () => true },
} as const satisfies Record<string, NumberWanted>;

export function rowCells(
  record: TableRecord,
  table: { header: readonly string[]; columns: readonly (ColumnName | null)[]; mark: DecimalMark | "two ways" },
  problems: TableProblem[],
): RowCells {
  const before = problems.length;
  const at = (index: number): string | null => {
    const cell = record.cells[index]?.trim() ?? "";
    return cell === "" || cell === "NA" ? null : cell;
  };
  const text = (column: ColumnName) => at(table.columns.indexOf(column));
  const problem: RowCells["problem"] = (column, value, expected, settledBy) => {
    const header = column === null ? null : (table.header[table.columns.indexOf(column)] ?? column);
    problems.push({ row: record.row, column: header, value, expected, ...(settledBy && { settledBy }) });
  };
  return {
    row: record.row,
    text,
    problem,
    required: (column, expected) => {
      const cell = text(column);
      if (cell === null) problem(column, "empty", expected);
      return cell ?? "";
    },
    number: (column, { expected, fits }) => {
      const cell = text(column);
      if (cell === null) return null;
      const read = readNumber(cell, table.mark);
      if ("number" in read && fits(read.number)) return read.number;
      problem(column, cell, "number" in read ? expected : `${expected} (${read.expected})`);
      return null;
    },
    named: (header) => {
      const cell = at(table.header.indexOf(header));
      if (cell === null) return null;
      const read = readNumber(cell, table.mark);
      return "number" in read && !cell.endsWith("%") ? read.number : cell;
    },
    fits: () => problems.length === before,
  };
}
