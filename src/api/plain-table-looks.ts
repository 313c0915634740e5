/** A table of looks: one row per coupon, face and look. */
import { daysBetween } from "../core/trial/calendar.ts";
import type { LookRow, LooksTable, TableReadingWishes } from "../core/trial/plain-table.ts";
import { isClassOf, type RustScale, scaleEnds, scaleTitles } from "../core/trial/scale-ends.ts";
import type { When } from "../core/trial/trial-record.ts";
import { type RowCells, wanted } from "./plain-table-cells.ts";
import type { ColumnName } from "./plain-table-columns.ts";
import { couponCells } from "./plain-table-coupon-cells.ts";
import { type DateReading, readDate } from "./plain-table-date.ts";
import type { SettledBy, TableProblem } from "./plain-table-text.ts";

type LooksReading = { readings: LooksTable["readings"]; scale: RustScale | null; byDay: boolean; notes: string[] };

/** Which of several columns is taken, said aloud when there was a choice. */
export function looksReading(columns: readonly (ColumnName | null)[], wishes: TableReadingWishes): LooksReading {
  const has = (column: ColumnName) => columns.includes(column);
  const readings = has("rusted_percent") ? "percent" : has("rating") ? "rating" : "word";
  const left = (["rating", "word"] as const).filter((column) => has(column) && column !== readings);
  const rustScale = wishes.scale === "iso2409" ? null : wishes.scale;
  const notes = [
    ...left.map(
      (column) => `The column ${column} was carried along: the readings were taken from ${readingNames[readings]}.`,
    ),
    ...(has("day") && has("date") ? ["The column date was carried along: the days were taken from day."] : []),
  ];
  return { readings, scale: readings === "rating" ? (rustScale ?? "iso10289") : null, byDay: has("day"), notes };
}

const readingNames = { percent: "rusted_percent", rating: "rating", word: "word" } as const;

export function lookRow(
  cells: RowCells,
  how: LooksReading & { circumstances: readonly string[]; wishes: TableReadingWishes },
): LookRow {
  return {
    ...couponCells(cells, how.circumstances),
    when: how.byDay ? dayOf(cells) : dateOf(cells, how.wishes),
    face: cells.text("face"),
    reading: readingOf(cells, how),
    edgePercent: cells.number("edge_percent", wanted.percent),
    takenDown: cells.text("taken_down"),
  };
}

function dayOf(cells: RowCells): When {
  const expected = "days since the start, 0 or more";
  const day = cells.number("day", { ...wanted.notNegative, expected });
  if (cells.text("day") === null) cells.problem("day", "empty", expected);
  return { day: day ?? 0 };
}

function dateOf(cells: RowCells, { dates }: TableReadingWishes): When {
  const text = cells.required("date", "the date of the look, such as 2026-05-03");
  const read: DateReading = text === "" ? { date: "" } : readDate(text, dates);
  if ("date" in read) return { date: read.date };
  if ("expected" in read) cells.problem("date", text, read.expected);
  else cells.problem("date", text, oneWay, { wish: "dates", answers: orders(read) });
  return { date: "" };
}

const oneWay = "a date that can be read one way only";
const orders = (read: { twoWays: { order: string }[] }) => read.twoWays.map((one) => one.order);

function readingOf(
  cells: RowCells,
  { readings, scale, wishes }: LooksReading & { wishes: TableReadingWishes },
): number | null {
  if (readings === "percent") return cells.number("rusted_percent", wanted.percent);
  if (readings === "word") return wordPercent(cells, wishes.words);
  const ends = scaleEnds[scale ?? "iso10289"];
  const expected = `a whole class from ${ends.best} (best) to ${ends.worst} of ${scaleTitles[scale ?? "iso10289"]}`;
  return cells.number("rating", { expected, fits: (rating) => isClassOf(rating, ends) });
}

function wordPercent(cells: RowCells, words: Readonly<Record<string, number>> | null): number | null {
  const word = cells.text("word");
  if (word === null) return null;
  const known = Object.entries(words ?? {}).find(([name]) => name.trim().toLowerCase() === word.toLowerCase());
  if (known) return known[1];
  if (words) cells.problem("word", word, `one of ${Object.keys(words).join(", ")}`);
  else cells.problem("word", word, "a word whose percent was given", { wish: "words", answers: ["none=0,spots=3"] });
  return null;
}

/** Day 0: as the user said, or the earliest date of the table; looks before it are refused. */
export function startOf(
  rows: readonly LookRow[],
  wishes: TableReadingWishes,
): { from: string | null; problem: TableProblem | null } {
  const dates = rows.flatMap(({ when }) => ("date" in when && when.date !== "" ? [when.date] : [])).sort();
  if (wishes.from === null) return { from: dates[0] ?? null, problem: null };
  if (dates.length === 0)
    return startProblem(wishes.from, "a table with dates; this one counts its days itself", {
      wish: "from",
      answers: [],
    });
  const read = readDate(wishes.from, wishes.dates);
  if ("date" in read) return { from: read.date, problem: null };
  return "expected" in read
    ? startProblem(wishes.from, read.expected, { wish: "from", answers: [] })
    : startProblem(wishes.from, oneWay, { wish: "dates", answers: orders(read) });
}

const startProblem = (from: string, expected: string, settledBy: SettledBy) => ({
  from: null,
  problem: { row: 1, column: null, value: from, expected, settledBy },
});

export const isBefore = (when: When, from: string): boolean => "date" in when && daysBetween(from, when.date) < 0;
