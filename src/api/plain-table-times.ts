/** A table of times: rust came, or the coating wore through, after the left end and by the right one. */
import type { TimeRow } from "../core/trial/plain-table.ts";
import { type RowCells, wanted } from "./plain-table-cells.ts";
import { couponCells } from "./plain-table-coupon-cells.ts";

export function timeRow(cells: RowCells, unit: "days" | "strokes", circumstances: readonly string[]): TimeRow {
  const leftColumn = `left_${unit}` as const;
  const rightColumn = `right_${unit}` as const;
  const leftExpected = `${unit}, 0 or more; 0: before the first look`;
  const left = cells.number(leftColumn, { ...wanted.notNegative, expected: leftExpected });
  if (cells.text(leftColumn) === null) cells.problem(leftColumn, "empty", leftExpected);
  const right = cells.number(rightColumn, wanted.notNegative);
  if (left !== null && right !== null) {
    if (right < left)
      cells.problem(rightColumn, cells.text(rightColumn) ?? "", `${unit} from ${leftColumn} (${left}) on, or empty`);
    else if (right === 0) cells.problem(rightColumn, "0", `${unit} above 0: nothing happens at time 0`);
  }
  return { ...couponCells(cells, circumstances), left: left ?? 0, right };
}
