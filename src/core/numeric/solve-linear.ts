/**
 * A square system of linear equations.
 *
 * Units    none: those of the equations
 * Source   elimination with the largest pivot of each column
 * Status   computed
 */
import { InputError } from "../input-error.ts";

/** The x of `matrix` x = `right`; both stay as they were. Refuses a system without a single answer. */
export function solveLinear(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const size = right.length;
  const rows = matrix.map((row, at) => [...row, right[at]!]);
  if (rows.length !== size || rows.some((row) => row.length !== size + 1))
    throw new InputError("matrix", `${rows.length} rows`, `${size} rows of ${size} numbers`);
  const largest = Math.max(...rows.flat().map(Math.abs));
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let row = column + 1; row < size; row++)
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const own = rows[column]!;
    if (!(Math.abs(own[column]!) > 1e-13 * largest))
      throw new InputError("matrix", "singular", "equations that have one answer");
    for (let row = column + 1; row < size; row++) {
      const other = rows[row]!;
      const times = other[column]! / own[column]!;
      for (let at = column; at <= size; at++) other[at]! -= times * own[at]!;
    }
  }
  const answer = new Array<number>(size).fill(0);
  for (let row = size - 1; row >= 0; row--) {
    const own = rows[row]!;
    let rest = own[size]!;
    for (let at = row + 1; at < size; at++) rest -= own[at]! * answer[at]!;
    answer[row] = rest / own[row]!;
  }
  return answer;
}
