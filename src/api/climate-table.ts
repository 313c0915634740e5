/**
 * A logger's file, CSV, read into rows of time, temperature and humidity. Pure, and the same in Node and in a page.
 * Everything that cannot be read is listed; where the text can mean two things a question is asked.
 */

import { magnus, rhFromDewPoint } from "../core/climate/humid-air.ts";
import type { LogRow } from "../core/climate/log-row.ts";
import { cFromFahrenheit } from "../core/units.ts";
import { type ClimateColumn, climateColumnOf, climateColumns, climateTableShape } from "./climate-table-columns.ts";
import { expectedTime, placeTimes, readTime, type WrittenTime } from "./climate-table-time.ts";
import type { DateOrder } from "./plain-table-date.ts";
import { decimalMarkOf, readNumber } from "./plain-table-number.ts";
import { delimiterNames, splitTable, type TableProblem, type TableText } from "./plain-table-text.ts";

export type ClimateQuestion = { about: "dates" | "zone"; question: string; answers: DateOrder[] };

export type ClimateTableReading = {
  understood: {
    delimiter: string;
    /** means: null for a column that is carried along untouched. */
    columns: { header: string; means: string | null }[];
    rowsRead: number;
    notes: string[];
  };
  problems: TableProblem[];
  questions: ClimateQuestion[];
  /** Only when there is neither a problem nor a question. */
  rows: LogRow[] | null;
};

/** `zone`: on whose wall clock a column `time` is written; null: not said. */
export type ClimateWishes = { zone: string | null; dates: DateOrder | null };

type Frame = {
  text: TableText;
  columns: (ClimateColumn | null)[];
  cell: (record: { cells: string[] }, column: ClimateColumn) => string | null;
};
type Placed = { row: number; atMs: number; repeatedHour: boolean };

export function readClimateTable(content: string, wishes: ClimateWishes): ClimateTableReading {
  const text = splitTable(content, climateTableShape);
  const columns = text.header.map(climateColumnOf);
  const cell: Frame["cell"] = ({ cells }, column) => {
    const found = cells[columns.indexOf(column)] ?? "";
    return found === "" || found.toUpperCase() === "NA" ? null : found;
  };
  const frame: Frame = { text, columns, cell };
  const problems = [...text.problems, ...headProblems(frame)];
  const { written, questions, problems: timeProblems } = writtenTimes(frame, wishes);
  const placed = questions.length > 0 ? [] : placedTimes(frame, written, wishes, timeProblems);
  const { rows, problems: airProblems, notes } = airRows(frame, placed);
  if (problems.length === 0) problems.push(...timeProblems, ...airProblems);
  const repeated = placed.filter((time) => time.repeatedHour).length;
  return {
    understood: {
      delimiter: delimiterNames[text.delimiter],
      columns: text.header.map((header, at) => ({ header, means: meansOf(columns[at] ?? null) })),
      rowsRead: rows.length,
      notes:
        repeated === 0
          ? notes
          : [...notes, `${repeated} times lie in the hour that autumn has twice; they are told apart by their order.`],
    },
    problems: problems.sort((a, b) => a.row - b.row),
    questions: problems.length > 0 ? [] : questions,
    rows: problems.length === 0 && questions.length === 0 ? rows : null,
  };
}

const meansOf = (column: ClimateColumn | null): string | null =>
  climateColumns.some((known) => known === column) ? column : null;

/** What the header lacks. */
function headProblems({ text, columns }: Frame): TableProblem[] {
  if (text.header.length === 0) return [];
  const shown = text.header.join(", ");
  const problem = (value: string, expected: string) => ({ row: 1, column: null, value, expected });
  const has = (...any: ClimateColumn[]) => any.some((column) => columns.includes(column));
  const unitless = text.header.filter((_, at) => columns[at]?.endsWith("without unit"));
  const noHumidity = !has("rh_percent", "dew_point_c", "dew_point_f");
  return [
    ...(has("temp_c", "temp_f")
      ? []
      : [problem(unitless[0] ?? shown, "a temperature with its unit: temp_c or temp_f")]),
    ...(noHumidity && has("dew_point without unit")
      ? [problem(unitless.at(-1)!, "a dew point with its unit: dew_point_c or dew_point_f")]
      : []),
    ...(noHumidity && !has("dew_point without unit")
      ? [problem(shown, "a column rh_percent, or a dew point: dew_point_c or dew_point_f")]
      : []),
    ...(has("date") && !has("time", "time_utc")
      ? [problem(shown, "a column with the time of day: time or time_utc")]
      : []),
    ...(text.records.length === 0 && text.problems.length === 0
      ? [{ row: 2, column: null, value: "no rows", expected: "a row for each reading under the header" }]
      : []),
  ];
}

function writtenTimes({ text, columns, cell }: Frame, { zone, dates }: ClimateWishes) {
  const column = columns.includes("time_utc") ? "time_utc" : "time";
  const problems: TableProblem[] = [];
  const doubts = new Map<DateOrder, string>();
  let doubtful: string | null = null;
  let needsZone: string | null = null;
  const written = text.records.map((record): WrittenTime | null => {
    const day = columns.includes("date") ? cell(record, "date") : null;
    const value = [...(day === null ? [] : [day]), cell(record, column) ?? ""].join(" ").trim();
    const read = readTime(value, dates);
    if ("time" in read) {
      if (column === "time" && read.time.offsetMinutes === null) needsZone ??= value;
      return read.time;
    }
    if ("twoWays" in read) {
      doubtful ??= value;
      for (const { order, date } of read.twoWays) if (!doubts.has(order)) doubts.set(order, `${date} (${order})`);
    } else
      problems.push({
        row: record.row,
        column: text.header[columns.indexOf(column)] ?? column,
        value: value || "empty",
        expected: read.expected.includes("time") ? read.expected : `${expectedTime}: ${read.expected}`,
      });
    return null;
  });
  const questions: ClimateQuestion[] = [];
  if (doubtful !== null)
    questions.push({
      about: "dates",
      question: `${doubtful} can be ${[...doubts.values()].join(" or ")}: which?`,
      answers: [...doubts.keys()],
    });
  if (needsZone !== null && zone === null)
    questions.push({ about: "zone", question: `On the clock of which zone was ${needsZone} written?`, answers: [] });
  return { written, questions, problems };
}

function placedTimes(
  { text, columns }: Frame,
  written: readonly (WrittenTime | null)[],
  { zone }: ClimateWishes,
  problems: TableProblem[],
): Placed[] {
  const inUtc = columns.includes("time_utc");
  const placed = placeTimes(written, inUtc ? "UTC" : (zone ?? "UTC"));
  return placed.flatMap((time, at) => {
    if (time === null) return [];
    const { row } = text.records[at]!;
    if ("atMs" in time) return [{ row, ...time }];
    const { wallMs } = written[at]!;
    const value = new Date(wallMs).toISOString().slice(0, 16).replace("T", " ");
    problems.push({ row, column: text.header[columns.indexOf("time")] ?? "time", value, expected: time.expected });
    return [];
  });
}

/** Temperature and humidity of the rows whose time is known, or of all while that is asked for. */
function airRows(frame: Frame, placed: readonly Placed[]) {
  const { text, columns } = frame;
  const problems: TableProblem[] = [];
  const numeric = columns.flatMap((column, at) => (/^(temp|rh|dew)/.test(column ?? "") ? [at] : []));
  const cells = text.records.flatMap((record) => numeric.map((at) => bare(record.cells[at] ?? "")));
  const mark = decimalMarkOf(cells, text.delimiter);
  const number = (record: TableText["records"][number], column: ClimateColumn): number | null => {
    const found = frame.cell(record, column);
    if (found === null) return null;
    const read = readNumber(bare(found), mark);
    if ("number" in read) return read.number;
    const header = text.header[columns.indexOf(column)] ?? column;
    problems.push({ row: record.row, column: header, value: found, expected: read.expected });
    return null;
  };
  const celsius = (record: TableText["records"][number], of: "temp" | "dew_point"): number | null => {
    if (columns.includes(`${of}_c`)) return number(record, `${of}_c`);
    const tempF = number(record, `${of}_f`);
    return tempF === null ? null : cFromFahrenheit(tempF);
  };
  const times = new Map(placed.map((time) => [time.row, time.atMs]));
  let fromDewPoint = 0;
  const rows = text.records.flatMap((record): LogRow[] => {
    const atMs = times.get(record.row);
    const tempC = celsius(record, "temp");
    const given = number(record, "rh_percent");
    const computed = given === null ? humidityOf(tempC, celsius(record, "dew_point")) : null;
    if (computed !== null) fromDewPoint++;
    return atMs === undefined ? [] : [{ atMs, tempC, rhPercent: given ?? computed }];
  });
  const notes = fromDewPoint > 0 ? [`Humidity computed from the dew point in ${fromDewPoint} rows.`] : [];
  return { rows, problems, notes };
}

/** A unit behind a number says what the header says. */
const bare = (cell: string): string => cell.replace(/\s*(%|%?\s?rh|°\s?[cf])$/i, "");

function humidityOf(tempC: number | null, dewPointC: number | null): number | null {
  if (tempC === null || dewPointC === null) return null;
  const holds = (at: number) => at >= magnus.leastC && at <= magnus.mostC;
  return holds(tempC) && holds(dewPointC) ? rhFromDewPoint({ tempC, dewPointC }) : null;
}
