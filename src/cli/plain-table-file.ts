/** A plain table from a file: read whole, or refused with everything that could not be read. */
import { readFileSync, statSync } from "node:fs";
import { type PlainTableReading, readPlainTable, type TableQuestion } from "../api/plain-table.ts";
import { decodeTable, maxTableBytes, type SettledBy, type TableProblem } from "../api/plain-table-text.ts";
import type { PlainTable, TableReadingWishes } from "../core/trial/plain-table.ts";
import { InputRefused, WrongUsage } from "./exit.ts";

export function readTableFile(path: string, wishes: TableReadingWishes): PlainTableReading {
  return readPlainTable(tableText(path), wishes);
}

/** The table, or an error that names every cell; what only an option is missing for is wrong usage. */
export function takeTable(path: string, reading: PlainTableReading): PlainTable {
  if (reading.table) return reading.table;
  const lines = [...reading.problems.map(problemLine), ...reading.questions.map(questionLine)];
  const message = `${path} cannot be taken yet:\n${lines.map((line) => `  ${line}`).join("\n")}`;
  throw reading.problems.length === 0 && reading.questions.every(({ about }) => optionOnly.includes(about))
    ? new WrongUsage(message)
    : new InputRefused(message);
}

/** The table is as it should be; the command line leaves out what it cannot say. */
const optionOnly: readonly TableQuestion["about"][] = ["response", "kind", "better"];

const optionFor = {
  dates: "--dates",
  words: "--words",
  response: "--response",
  kind: "--kind",
  better: "--better",
} as const satisfies Record<TableQuestion["about"], string>;

/** A problem with the option that settles it. */
export function problemLine({ row, column, value, expected, settledBy }: TableProblem): string {
  const where = column === null ? `row ${row}` : `row ${row}, ${column}`;
  const option = settledBy
    ? ` (${[wishOptions[settledBy.wish], settledBy.answers.join(" or ")].join(" ").trim()})`
    : "";
  return `${where}: ${value}; expected ${expected}${option}`;
}

const wishOptions = {
  dates: "--dates",
  words: "--words",
  from: "--from",
  circumstances: "--circumstance",
} as const satisfies Record<SettledBy["wish"], string>;

export function questionLine({ about, question, answers }: TableQuestion): string {
  const choices =
    answers.length > 0
      ? ` (${optionFor[about]} ${answers.join(about === "words" ? "=..., " : " or ")}${about === "words" ? "=..." : ""})`
      : ` (${optionFor[about]})`;
  return `${question}${choices}`;
}

export function tableText(path: string): string {
  const file = statSync(path, { throwIfNoEntry: false });
  if (!file?.isFile()) throw new InputRefused(`${path} is not there; expected a CSV file`);
  if (file.size > maxTableBytes)
    throw new InputRefused(`${path} has ${file.size} bytes; expected ${maxTableBytes} at most`);
  const text = decodeTable(readFileSync(path));
  if (text === null) throw new InputRefused(`${path} is not in UTF-8; expected a table saved as CSV UTF-8`);
  return text;
}
