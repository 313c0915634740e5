/** From the bytes of a file to records of cells: encoding, delimiter, quotes. Nothing is read into them yet. */
import Papa from "papaparse";
import { columnOf } from "./plain-table-columns.ts";

/** What could not be taken, where, and what was expected. Row 1 is the header. */
export type TableProblem = { row: number; column: string | null; value: string; expected: string };

export type TableRecord = { row: number; cells: string[] };
export type TableText = {
  delimiter: "," | ";" | "\t";
  header: string[];
  records: TableRecord[];
  problems: TableProblem[];
};

export const delimiterNames = { ",": "comma", ";": "semicolon", "\t": "tab" } as const;
const delimiters = [",", ";", "\t"] as const;

/** More than any notebook holds; a logger's file is not a plain table. */
export const maxTableBytes = 20_000_000;
export const maxTableRows = 50_000;

/** UTF-8 only: anything else would turn letters of names into others without a word. Null: it is not. */
export function decodeTable(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** Cuts the text into records, or says why it is no table. */
export function splitTable(text: string): TableText {
  const plain = text.replace(/^\uFEFF/, "");
  const delimiter = delimiterOf(plain);
  const parsed = Papa.parse<string[]>(plain, { delimiter: delimiter ?? ",", header: false, skipEmptyLines: false });
  const [header = [], ...body] = parsed.data;
  const names = header.map((name) => name.trim());
  if (delimiter === null) return { delimiter: ",", header: [], records: [], problems: [noTable(plain)] };
  if (body.length > maxTableRows)
    return {
      delimiter,
      header: names,
      records: [],
      problems: [{ row: 1, column: null, value: `${body.length} rows`, expected: `${maxTableRows} rows at most` }],
    };
  const filled = body
    .map((cells, at) => ({ row: at + 2, cells: cells.map((cell) => cell.trim()) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ""));
  const problems = [
    ...quoteProblems(parsed.errors),
    ...headerProblems(names),
    ...filled.flatMap((record) => widthProblem(record, names, delimiter)),
  ];
  const unfit = new Set(problems.map((problem) => problem.row));
  return { delimiter, header: names, records: filled.filter(({ row }) => !unfit.has(row)), problems };
}

/** The delimiter by which the first line shows the columns that every table has; null: by none. */
function delimiterOf(text: string): TableText["delimiter"] | null {
  const firstLine = text.split(/\r\n|\r|\n/, 1)[0] ?? "";
  return (
    delimiters.find((delimiter) => {
      const header = Papa.parse<string[]>(firstLine, { delimiter, header: false }).data[0] ?? [];
      const columns = header.map(columnOf);
      return columns.includes("coupon") && columns.includes("treatment");
    }) ?? null
  );
}

function noTable(text: string): TableProblem {
  const firstLine = (text.split(/\r\n|\r|\n/, 1)[0] ?? "").slice(0, 80);
  return {
    row: 1,
    column: null,
    value: firstLine,
    expected: "a header row with the columns coupon and treatment, parted by commas, semicolons or tabs",
  };
}

function quoteProblems(errors: readonly Papa.ParseError[]): TableProblem[] {
  return errors
    .filter((error) => error.type === "Quotes")
    .map((error) => ({
      row: (error.row ?? 0) + 1,
      column: null,
      value: "a quotation mark without its partner",
      expected: 'cells in pairs of quotes, a quote inside written twice ("")',
    }));
}

function headerProblems(header: readonly string[]): TableProblem[] {
  const seen = new Map<string, string>();
  return header.flatMap((name) => {
    const column = columnOf(name);
    if (column === null) return [];
    const earlier = seen.get(column);
    seen.set(column, name);
    if (earlier === undefined) return [];
    return [{ row: 1, column: name, value: name, expected: `each column once; "${earlier}" means the same` }];
  });
}

function widthProblem(record: TableRecord, header: readonly string[], delimiter: TableText["delimiter"]) {
  const beyond = record.cells.slice(header.length);
  const short = record.cells.length < header.length;
  if (!short && beyond.every((cell) => cell === "")) return [];
  const hint = !short && delimiter === "," ? "; a decimal comma in a table parted by commas stands in quotes" : "";
  return [
    {
      row: record.row,
      column: null,
      value: `${record.cells.length} cells`,
      expected: `${header.length} cells, parted by ${delimiterNames[delimiter]}s like the header${hint}`,
    },
  ];
}
