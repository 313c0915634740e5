/** Outgoing plain tables as text: RFC 4180, comma, decimal point, CRLF. */
import Papa from "papaparse";

export function tableCsv({
  header,
  rows,
}: {
  header: readonly string[];
  rows: readonly (readonly (string | number | null)[])[];
}): string {
  return `${Papa.unparse({ fields: [...header], data: rows.map((row) => [...row]) }, { newline: "\r\n" })}\r\n`;
}
