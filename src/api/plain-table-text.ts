/** From the bytes of a file to records of cells: encoding, delimiter, quotes. Nothing is read into them yet. */
import Papa from "papaparse";
import { asRead } from "./plain-table-csv.ts";

/**
 * What could not be taken, where, and what was expected. Row 1 is the header. `settledBy`: what the reader may say to settle
 * it; each face asks in its own way (an option, a question).
 */
export type TableProblem = {
  row: number;
  column: string | null;
  value: string;
  expected: string;
  settledBy?: SettledBy;
};
/** `answers`: those that would do; empty where any will. */
export type SettledBy = { wish: "dates" | "from" | "words" | "circumstances"; answers: readonly string[] };

export type TableRecord = { row: number; cells: string[] };
export type TableText = {
  delimiter: "," | ";" | "\t";
  header: string[];
  records: TableRecord[];
  problems: TableProblem[];
};

export const delimiterNames = { ",": "comma", ";": "semicolon", "\t": "tab" } as const;
const delimiters = [",", ";", "\t"] as const;

export const maxTableBytes = 20_000_000;

/** What makes a text one of the tables that are looked for. */
export type TableShape = {
  /** Which column a header means; null: none that is known. */
  columnOf: (header: string) => string | null;
  /** Whether a header line with these columns can be of such a table: by this the delimiter is told. */
  fits: (columns: readonly (string | null)[]) => boolean;
  /** The columns in words, for who brings something else. */
  expected: string;
  maxRows: number;
};

/** UTF-8 only: anything else would turn letters of names into others without a word. Null: it is not. */
export function decodeTable(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** Cuts the text into records, or says why it is no table. */
export function splitTable(text: string, shape: TableShape): TableText {
  const plain = text.replace(/^\uFEFF/, "");
  const delimiter = delimiterOf(plain, shape);
  const parsed = Papa.parse<string[]>(plain, { delimiter: delimiter ?? ",", header: false, skipEmptyLines: false });
  const [header = [], ...body] = parsed.data;
  const names = header.map((name) => name.trim());
  if (delimiter === null) return { delimiter: ",", header: [], records: [], problems: [noTable(plain, shape)] };
  if (body.length > shape.maxRows)
    return {
      delimiter,
      header: names,
      records: [],
      problems: [{ row: 1, column: null, value: `${body.length} rows`, expected: `${shape.maxRows} rows at most` }],
    };
  const filled = body
    .map((cells, at) => ({ row: at + 2, cells: cells.map((cell) => asRead(cell.trim())) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ""));
  const problems = [
    ...quoteProblems(parsed.errors),
    ...headerProblems(names, shape),
    ...filled.flatMap((record) => widthProblem(record, names, delimiter)),
  ];
  const unfit = new Set(problems.map((problem) => problem.row));
  return { delimiter, header: names, records: filled.filter(({ row }) => !unfit.has(row)), problems };
}

/** The delimiter by which the first line shows the columns that every table has; null: by none. */
function delimiterOf(text: string, { columnOf, fits }: TableShape): TableText["delimiter"] | null {
  const firstLine = text.split(/\r\n|\r|\n/, 1)[0] ?? "";
  return (
    delimiters.find((delimiter) => {
      const header = Papa.parse<string[]>(firstLine, { delimiter, header: false }).data[0] ?? [];
      return fits(header.map(columnOf));
    }) ?? null
  );
}

function noTable(text: string, { expected }: TableShape): TableProblem {
  const firstLine = (text.split(/\r\n|\r|\n/, 1)[0] ?? "").slice(0, 80);
  return {
    row: 1,
    column: null,
    value: text.trim() === "" ? "nothing: the table is empty" : firstLine,
    expected: `a header row with ${expected}, parted by commas, semicolons or tabs`,
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

function headerProblems(header: readonly string[], { columnOf }: TableShape): TableProblem[] {
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
