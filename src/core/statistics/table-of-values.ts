/**
 * A complete table of measured values: one row per block, coupon or laboratory.
 *
 * Units    those of the values
 * Source   input rules of this project
 * Status   common practice
 */
import { InputError, requireFinite, requireList } from "../input-error.ts";

/** Refuses ragged rows, missing cells, fewer rows or columns than named. */
export function requireTable(
  argument: string,
  value: unknown,
  least: { rows: number; columns: number },
): asserts value is number[][] {
  requireList(argument, value, least.rows);
  const columns = Array.isArray(value[0]) ? value[0].length : 0;
  for (const [at, row] of value.entries()) {
    requireList(`${argument}[${at}]`, row, least.columns);
    if (row.length !== columns)
      throw new InputError(`${argument}[${at}]`, row, `as many values as the first row, ${columns}`);
    for (const [column, cell] of row.entries()) requireFinite(`${argument}[${at}][${column}]`, cell);
  }
}

/** Two groups of values or more, each with at least `atLeast`. */
export function requireGroups(argument: string, value: unknown, atLeast: number): asserts value is number[][] {
  requireList(argument, value, 2);
  for (const [at, group] of value.entries()) {
    requireList(`${argument}[${at}]`, group, atLeast);
    for (const [place, one] of group.entries()) requireFinite(`${argument}[${at}][${place}]`, one);
  }
}

/** The columns of a complete table. */
export function columnsOf(rows: readonly (readonly number[])[]): number[][] {
  return (rows[0] ?? []).map((_, column) => rows.map((row) => row[column]!));
}
