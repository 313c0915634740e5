/**
 * Plain tables: CSV that a user wrote down before, read into typed rows.
 *
 * Pure, and the same in Node and in a page. Everything that cannot be read is listed, by row, column, value and what was
 * expected; where the text can mean two things a question is asked. A table with either is not handed on.
 */
import type { PlainTable, TableReadingWishes, TimeRow, ValueRow } from "../core/trial/plain-table.ts";
import {
  couponDisagreements,
  halfFilled,
  looksAfterTakenDown,
  oneRowPerCoupon,
  oneRowPerLook,
} from "./plain-table-agreement.ts";
import { type RowCells, rowCells } from "./plain-table-cells.ts";
import {
  type ColumnName,
  columnOf,
  expectedForms,
  formsOf,
  plainHeader,
  plainTableShape,
  type TableForm,
} from "./plain-table-columns.ts";
import { couponCells } from "./plain-table-coupon-cells.ts";
import { readDate } from "./plain-table-date.ts";
import { isBefore, lookRow, looksReading, startOf } from "./plain-table-looks.ts";
import { decimalMarkOf, numberCells } from "./plain-table-number.ts";
import { delimiterNames, splitTable, type TableProblem, type TableText } from "./plain-table-text.ts";
import { timeRow } from "./plain-table-times.ts";
import { valueReading } from "./plain-table-values.ts";

/** The table cannot be taken before this is answered: asked on a page, an option on the command line. */
export type TableQuestion = {
  about: "dates" | "words" | "response" | "kind" | "better";
  question: string;
  answers: string[];
};

export type PlainTableReading = {
  understood: {
    form: TableForm | null;
    delimiter: string;
    decimalMark: "." | "," | null;
    /** means: null for a column that is carried along untouched. */
    columns: { header: string; means: string | null }[];
    rowsRead: number;
    coupons: number;
    treatments: string[];
  };
  problems: TableProblem[];
  questions: TableQuestion[];
  /** Only when there is neither a problem nor a question. */
  table: PlainTable | null;
};

type Frame = {
  text: TableText;
  columns: (ColumnName | null)[];
  form: TableForm;
  mark: ReturnType<typeof decimalMarkOf>;
  wishes: TableReadingWishes;
  /** Headers of the columns named as circumstances. */
  circumstances: string[];
};
type Body = { table: PlainTable | null; problems: TableProblem[]; questions: TableQuestion[]; couponRows: Coupons };
type Coupons = readonly { coupon: string; treatment: string }[];

export function readPlainTable(content: string, wishes: TableReadingWishes): PlainTableReading {
  const text = splitTable(content, plainTableShape);
  const columns = text.header.map(columnOf);
  const mark = decimalMarkOf(numberCells(columns, text.records), text.delimiter);
  const { form, problems: headProblems, circumstances } = headOf(text, columns, wishes);
  const frame = form && { text, columns, form, mark, wishes, circumstances };
  const body: Body = frame ? bodyOf(frame) : { table: null, problems: [], questions: [], couponRows: [] };
  const inRows = body.problems.map((problem) => asWritten(problem, text, columns));
  const problems = [...text.problems, ...headProblems, ...inRows].sort((a, b) => a.row - b.row);
  return {
    understood: {
      form,
      delimiter: delimiterNames[text.delimiter],
      decimalMark: mark === "two ways" ? null : mark,
      columns: text.header.map((header, at) => ({
        header,
        means: columns[at] ?? (circumstances.includes(header) ? "circumstance" : null),
      })),
      rowsRead: body.couponRows.length,
      coupons: new Set(body.couponRows.map((row) => row.coupon)).size,
      treatments: [...new Map(body.couponRows.map((row) => [row.treatment.toLowerCase(), row.treatment])).values()],
    },
    problems,
    questions: body.questions,
    table: problems.length === 0 && body.questions.length === 0 ? body.table : null,
  };
}

/** The column and the cell as they stand in the file, so that they can be found there. */
function asWritten(problem: TableProblem, { header, records }: TableText, columns: Frame["columns"]): TableProblem {
  const at = columns.findIndex((column) => column !== null && column === problem.column);
  const cell = records.find((record) => record.row === problem.row)?.cells[at];
  return at < 0 ? problem : { ...problem, column: header[at] ?? problem.column, value: cell || problem.value };
}

/** What the header says: the form of the table, and the columns that the user named. */
function headOf(text: TableText, columns: readonly (ColumnName | null)[], wishes: TableReadingWishes) {
  const problems: TableProblem[] = [];
  if (text.header.length === 0) return { form: null, problems, circumstances: [] };
  const forms = formsOf(columns);
  const shown = text.header.join(", ");
  if (forms.length === 0)
    problems.push({ row: 1, column: null, value: shown, expected: `coupon, treatment and ${expectedForms}` });
  if (forms.length > 1)
    problems.push({ row: 1, column: null, value: shown, expected: `columns of one form only: ${expectedForms}` });
  if (text.records.length === 0 && text.problems.length === 0)
    problems.push({ row: 2, column: null, value: "no rows", expected: "a row for each coupon under the header" });
  const circumstances = wishes.circumstances.flatMap((wish) => {
    const at = text.header.findIndex((header) => plainHeader(header) === plainHeader(wish));
    const header = text.header[at];
    const means = columns[at];
    if (header === undefined)
      problems.push({
        row: 1,
        column: null,
        value: wish,
        expected: `a column of the table: ${shown}`,
        settledBy: { wish: "circumstances", answers: [] },
      });
    if (means === "coupon" || means === "treatment")
      problems.push({
        row: 1,
        column: wish,
        value: wish,
        expected: "a column that is a circumstance, not the trial itself",
      });
    return header === undefined || audited.some((name) => name === means) ? [] : [header];
  });
  return { form: forms.length === 1 ? forms[0]! : null, problems, circumstances };
}

/** Audited anyway, without being named. */
const audited: readonly ColumnName[] = ["batch", "site", "row", "column", "edge", "inspector"];

function bodyOf(frame: Frame): Body {
  if (frame.form === "looks") return looksBody(frame);
  if (frame.form === "values") return valuesBody(frame);
  return timesBody(frame, frame.form === "times" ? "days" : "strokes");
}

/** Reads every row; those with a cell that cannot be read are left out and stand in the problems. */
function readRows<Row>(frame: Frame, problems: TableProblem[], read: (cells: RowCells) => Row | null): Row[] {
  const table = { header: frame.text.header, columns: frame.columns, mark: frame.mark };
  return frame.text.records.flatMap((record) => {
    const cells = rowCells(record, table, problems);
    const row = read(cells);
    return row !== null && cells.fits() ? [row] : [];
  });
}

function looksBody(frame: Frame): Body {
  const { wishes, circumstances } = frame;
  const reading = looksReading(frame.columns, wishes);
  const problems: TableProblem[] = [];
  const rows = readRows(frame, problems, (cells) => lookRow(cells, { ...reading, circumstances, wishes }));
  const { from, problem } = startOf(rows, wishes);
  if (problem !== null) problems.push(problem);
  for (const row of rows)
    if (from !== null && isBefore(row.when, from))
      problems.push({
        row: row.row,
        column: "date",
        value: "date" in row.when ? row.when.date : "",
        expected: `${from} or later`,
        settledBy: { wish: "from", answers: [] },
      });
  problems.push(
    ...couponDisagreements(rows),
    ...halfFilled(rows),
    ...oneRowPerLook(rows),
    ...looksAfterTakenDown(rows),
  );
  const { readings, scale, notes } = reading;
  return {
    table: { kind: "looks", readings, scale, from, rows, notes },
    problems,
    questions: looksQuestions(frame, readings === "word"),
    couponRows: rows,
  };
}

function looksQuestions({ text, columns, wishes }: Frame, words: boolean): TableQuestion[] {
  const cellsOf = (column: ColumnName) =>
    text.records
      .map(({ cells }) => cells[columns.indexOf(column)] ?? "")
      .filter((cell) => cell !== "" && cell !== "NA");
  const questions: TableQuestion[] = [];
  const byDate = columns.includes("date") && !columns.includes("day");
  const doubtful = byDate ? cellsOf("date").map((cell) => readDate(cell, wishes.dates)) : [];
  const readings = doubtful.flatMap((read) => ("twoWays" in read ? read.twoWays : []));
  if (readings.length > 0) {
    const orders = [...new Set(readings.map((one) => one.order))];
    const example = cellsOf("date").find((cell) => "twoWays" in readDate(cell, wishes.dates)) ?? "";
    const ways = readings.slice(0, orders.length).map((one) => `${one.date} (${one.order})`);
    questions.push({ about: "dates", question: `${example} can be ${ways.join(" or ")}: which?`, answers: orders });
  }
  if (words && wishes.words === null) {
    const used = [...new Set(cellsOf("word").map((word) => word.toLowerCase()))];
    questions.push({ about: "words", question: "What percent of the face does each word stand for?", answers: used });
  }
  return questions;
}

function timesBody(frame: Frame, unit: "days" | "strokes"): Body {
  const problems: TableProblem[] = [];
  const rows: TimeRow[] = readRows(frame, problems, (cells) => timeRow(cells, unit, frame.circumstances));
  problems.push(...couponDisagreements(rows), ...halfFilled(rows), ...oneRowPerCoupon(rows));
  return { table: { kind: "times", unit, rows, notes: [] }, problems, questions: [], couponRows: rows };
}

function valuesBody(frame: Frame): Body {
  const { wishes, circumstances, text, columns } = frame;
  const questions = valuesQuestions(wishes);
  if (wishes.kind === null) return { table: null, problems: [], questions, couponRows: [] };
  const values = text.records.map(({ cells }) => cells[columns.indexOf("value")] ?? "");
  const reading = valueReading(wishes.kind, wishes, values);
  const problems: TableProblem[] = [];
  const drafts = readRows(frame, problems, (cells) => ({
    ...couponCells(cells, circumstances),
    value: reading.read(cells),
  }));
  problems.push(...couponDisagreements(drafts), ...halfFilled(drafts), ...oneRowPerCoupon(drafts));
  const rows: ValueRow[] = drafts.flatMap((row) => (row.value === null ? [] : [{ ...row, value: row.value }]));
  const missing = drafts.filter((row) => row.value === null).map((row) => row.coupon);
  const { valueKind, better, scale, tapeLetter } = reading;
  return {
    table: {
      kind: "values",
      response: wishes.response ?? "",
      valueKind,
      better,
      scale,
      tapeLetter,
      rows,
      notes: missing.length > 0 ? [`Left out, no value: coupon ${missing.join(", ")}.`] : [],
    },
    problems,
    questions,
    couponRows: drafts,
  };
}

function valuesQuestions({ response, kind, better }: TableReadingWishes): TableQuestion[] {
  const questions: TableQuestion[] = [];
  if (response === null)
    questions.push({ about: "response", question: "What was measured? A name, such as coating mass.", answers: [] });
  if (kind === null)
    questions.push({
      about: "kind",
      question: "What kind of values are these?",
      answers: ["continuous", "ordinal", "binary", "area"],
    });
  if (kind === "continuous" && better === null)
    questions.push({ about: "better", question: "Which values are better?", answers: ["higher", "lower"] });
  return questions;
}
