/** A logger's file: read whole, or refused with what could not be read. */
import { type ClimateTableReading, readClimateTable } from "../api/climate-table.ts";
import type { DateOrder } from "../api/plain-table-date.ts";
import type { LogRow } from "../core/climate/log-row.ts";
import { InputRefused, WrongUsage } from "./exit.ts";
import { problemLine, tableText } from "./plain-table-file.ts";

export type ClimateOptions = { zone?: string; dates?: DateOrder | null };

export function readClimateFile(path: string, options: ClimateOptions): ClimateTableReading {
  return readClimateTable(tableText(path), { zone: options.zone ?? null, dates: options.dates ?? null });
}

/** A broken log has thousands of bad rows; the first say what is wrong. */
const shownProblems = 20;

export function takeClimateRows(path: string, { rows, problems, questions }: ClimateTableReading): LogRow[] {
  if (rows) return rows;
  const lines = [
    ...problems.slice(0, shownProblems).map(problemLine),
    ...(problems.length > shownProblems ? [`and ${problems.length - shownProblems} more`] : []),
    ...questions.map(({ about, question, answers }) =>
      about === "zone" ? `${question} (--zone Area/City)` : `${question} (--dates ${answers.join(" or ")})`,
    ),
  ];
  const message = `${path} cannot be taken yet:\n${lines.map((line) => `  ${line}`).join("\n")}`;
  // The file is as it should be; the command line leaves out what it cannot say.
  throw problems.length === 0 && questions.every(({ about }) => about === "zone")
    ? new WrongUsage(message)
    : new InputRefused(message);
}
