/**
 * Tables of counts: groups in rows, outcomes in columns.
 *
 * Units    counts
 * Source   input rules of this project
 * Status   common practice
 */
import { InputError, requireList, requireWhole } from "../input-error.ts";

export type TwoByTwo = readonly [readonly [number, number], readonly [number, number]];

/** A complete table of whole counts with at least `least` rows and columns. */
export function requireCounts(
  argument: string,
  value: unknown,
  least: { rows: number; columns: number },
): asserts value is number[][] {
  requireList(argument, value, least.rows);
  const columns = Array.isArray(value[0]) ? value[0].length : 0;
  for (const [at, row] of value.entries()) {
    requireList(`${argument}[${at}]`, row, least.columns);
    if (row.length !== columns)
      throw new InputError(`${argument}[${at}]`, row, `as many counts as the first row, ${columns}`);
    for (const [column, count] of row.entries()) requireWhole(`${argument}[${at}][${column}]`, count);
  }
}

/** A table of two groups and two outcomes. */
export function requireTwoByTwo(argument: string, value: unknown): asserts value is TwoByTwo {
  requireCounts(argument, value, { rows: 2, columns: 2 });
  if (value.length !== 2 || value[0]!.length !== 2)
    throw new InputError(argument, value, "a table of two rows and two columns");
}

/** Tables whose probabilities differ by rounding only count as equally likely. */
export const equallyLikely = 1e-7;
