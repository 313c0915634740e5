/** Numbers of a table: decimal point or comma, one of them in the whole table. */
import { numberColumns } from "./plain-table-columns.ts";

export type DecimalMark = "." | ",";

const numberShape = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i;
/** 1,234 can be one and a bit, or one thousand and more; 0,125 and 1,23 cannot. */
const thousandsShape = /^[+-]?[1-9]\d{0,2}([.,]\d{3})+$/;

/**
 * The decimal mark that the table's own numbers prove, and which cells speak against it.
 * "two ways": all that has a comma could as well be thousands, and the comma also parts the cells.
 */
export function decimalMarkOf(cells: readonly string[], delimiter: string): DecimalMark | "two ways" {
  const numbers = cells.filter((cell) => numberShape.test(cell) || thousandsShape.test(cell));
  const proves = (mark: string) => numbers.some((cell) => cell.includes(mark) && !thousandsShape.test(cell));
  if (proves(".")) return ".";
  if (proves(",")) return ",";
  const hasComma = numbers.some((cell) => cell.includes(","));
  if (!hasComma) return ".";
  // Where another sign parts the cells, a comma in a number is the decimal comma: this form has no thousands marks.
  return delimiter === "," || numbers.some((cell) => cell.includes(".")) ? "two ways" : ",";
}

/** The number in a cell, or what was expected instead. */
export function readNumber(text: string, mark: DecimalMark | "two ways"): { number: number } | { expected: string } {
  const cell = text.replace(/\s*%$/, "");
  if (!numberShape.test(cell)) return { expected: "a number, without thousands marks" };
  if (mark === "two ways" && /[.,]/.test(cell) && thousandsShape.test(cell))
    return { expected: "a number that can be read one way only: no thousands marks; a decimal point" };
  if (mark === "." && cell.includes(","))
    return { expected: "one decimal mark in the whole table; elsewhere it is the point" };
  if (mark === "," && cell.includes("."))
    return { expected: "one decimal mark in the whole table; elsewhere it is the comma" };
  return { number: Number(cell.replace(",", ".")) };
}

/** Every cell of the columns that hold numbers. */
export function numberCells(header: readonly (string | null)[], records: readonly { cells: string[] }[]): string[] {
  const at = header.flatMap((name, index) => (numberColumns.some((column) => column === name) ? [index] : []));
  return records.flatMap(({ cells }) => at.map((index) => (cells[index] ?? "").replace(/\s*%$/, "")));
}
