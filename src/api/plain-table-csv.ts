/** Outgoing plain tables as text: RFC 4180, comma, decimal point, CRLF. */
import Papa from "papaparse";

/** As a formula a spreadsheet would carry it out, whoever wrote it. A number is none. */
const beginsFormula = /^'*[=+\-@]/;
const isNumber = (text: string) => /^[+-]?\d+([.,]\d+)?$/.test(text);

/** Spreadsheets take what follows an apostrophe as text; `asRead` takes it away again. */
function asText<Cell extends string | number | null>(cell: Cell): Cell | string {
  return typeof cell === "string" && beginsFormula.test(cell) && !isNumber(cell) ? `'${cell}` : cell;
}

/** A cell as it was before it was written by `tableCsv`. */
export const asRead = (cell: string): string =>
  cell.startsWith("'") && beginsFormula.test(cell) ? cell.slice(1) : cell;

/** No cell of it is a formula to a spreadsheet. */
export function tableCsv({
  header,
  rows,
}: {
  header: readonly string[];
  rows: readonly (readonly (string | number | null)[])[];
}): string {
  return `${Papa.unparse({ fields: header.map(asText), data: rows.map((row) => row.map(asText)) }, { newline: "\r\n" })}\r\n`;
}
