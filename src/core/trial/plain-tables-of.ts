/**
 * A stored trial as plain tables, with the options under which `findings` answers from them as the trial does. One table for
 * each declared question, since area and grade on a planned day are values drawn from looks that may lie a day beside it.
 */

import { type DeclaredQuestion, responseName } from "./declared-question.ts";
import { usualRustThresholdPercent } from "./look-responses.ts";
import { outgoingLooks } from "./outgoing-looks.ts";
import { outgoingScaleFlags } from "./outgoing-scale.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { type BatchColumn, batchColumn } from "./table-batch-column.ts";
import { declaredQuestions } from "./trial-questions.ts";
import type { TrialRecord } from "./trial-record.ts";

export type OutgoingTable = {
  /** Of the file, without its ending. */
  name: string;
  header: string[];
  rows: (string | number | null)[][];
  /** Options of `findings` for this table. */
  flags: string[];
};
export type PlainTables = {
  tables: OutgoingTable[];
  /** What plain tables cannot carry of this trial, in words; with any, `findings` may answer otherwise. */
  cannot: string[];
};

/** One table for each declared question that can be answered: days, percents, classes, as `findings` reads them. */
export function plainTablesOf(record: TrialRecord): PlainTables {
  const declared = declaredQuestions(record);
  const tables: OutgoingTable[] = [];
  const cannot: string[] = [];
  for (const { declared: asked, question, why } of declared) {
    const no = why ?? withoutTable(question);
    if (question === null || no !== null) {
      cannot.push(`The question of ${responseName(asked)} has no table: ${no}.`);
      continue;
    }
    const batch = batchColumn(question);
    cannot.push(...limitsOf(question, batch));
    tables.push(tableOf(record, { declared: asked, question, columns: couponColumns(question, batch) }));
  }
  return { tables: withOwnNames(tables), cannot: [...new Set(cannot)] };
}

/** Why a question that can be answered has no table; null: it has one. */
function withoutTable({ treatments, coupons, scale }: Question): string | null {
  const unseen = treatments.filter((name) => !coupons.some((one) => one.treatment === name));
  if (unseen.length > 0) return `nothing was observed of ${unseen.join(", ")}`;
  if (scale !== null && outgoingScaleFlags(scale) === null)
    return `a table knows no scale from ${scale.best} to ${scale.worst}`;
  return null;
}

function withOwnNames(tables: readonly OutgoingTable[]): OutgoingTable[] {
  return tables.map((table, at) => {
    const same = tables.slice(0, at).filter((one) => one.name === table.name).length;
    return same === 0 ? table : { ...table, name: `${table.name}-${same + 1}` };
  });
}

type Column = { header: string; writtenIn: (coupon: QuestionCoupon) => string | number | null };

/** Names under which a table knows a circumstance without being told. */
const usualCircumstances = ["site", "row", "column", "edge", "inspector"];

/** What a table says of each coupon in every row. Columns that are empty throughout are left out. */
function couponColumns({ coupons }: Question, batch: BatchColumn): Column[] {
  const circumstances = [...new Set(coupons.flatMap((one) => Object.keys(one.circumstances)))];
  const columns: Column[] = [
    { header: "block", writtenIn: ({ block }) => block },
    { header: "batch", writtenIn: ({ coupon }) => batch.batches.get(coupon) ?? null },
    { header: "deviation", writtenIn: ({ deviation }) => deviation },
    ...circumstances.map((name) => ({
      header: name,
      writtenIn: (coupon: QuestionCoupon) => coupon.circumstances[name] ?? null,
    })),
  ];
  return columns.filter(({ writtenIn }) => coupons.some((coupon) => writtenIn(coupon) !== null));
}

/** A table names treatments in the order in which they appear: the plan's order, then. */
function inTreatmentOrder({ treatments, coupons }: Question): QuestionCoupon[] {
  const order = [...treatments, ...new Set(coupons.map((one) => one.treatment))];
  return [...coupons].sort((a, b) => order.indexOf(a.treatment) - order.indexOf(b.treatment));
}

type Outgoing = { declared: DeclaredQuestion; question: Question; columns: readonly Column[] };

/** Looks as they were made; of everything else the one datum of each coupon. */
function tableOf(record: TrialRecord, outgoing: Outgoing): OutgoingTable {
  const { declared, question } = outgoing;
  if (question.kind !== "time") return valuesTable(record, outgoing);
  const fromLooks = declared.response === "time to first rust" && record.firstRustTimes.length === 0;
  return fromLooks ? looksTable(record, outgoing) : timesTable(outgoing);
}

function looksTable(record: TrialRecord, { question, columns }: Outgoing): OutgoingTable {
  const { reading, rowsOf, flags } = outgoingLooks(record);
  const header = ["coupon", "treatment", "day", "face", reading, "edge_percent", "taken_down"];
  const own = columns.filter((column) => !header.includes(column.header));
  return {
    name: "looks",
    header: [...header, ...own.map((one) => one.header)],
    rows: inTreatmentOrder(question).flatMap((coupon) =>
      rowsOf(coupon.coupon).map((look) => [
        coupon.coupon,
        coupon.treatment,
        look.day,
        look.face,
        look.reading,
        look.edgePercent,
        look.takenDown,
        ...own.map(({ writtenIn }) => writtenIn(coupon)),
      ]),
    ),
    flags: [...flags, ...(reading === "rating" ? [] : thresholdFlags(record)), ...questionFlags(question, columns)],
  };
}

function timesTable({ question, columns }: Outgoing): OutgoingTable {
  const { unit, response } = question;
  return couponTable(question, columns, {
    name: fileName(response),
    headers: [`left_${unit}`, `right_${unit}`],
    cellsOf: ({ datum }) => ("left" in datum ? [datum.left, datum.right] : [null, null]),
    flags: [],
  });
}

function valuesTable(record: TrialRecord, { declared, question, columns }: Outgoing): OutgoingTable {
  const { response, kind, better, ratio, scale } = question;
  const letter = declared.response === "tape class" ? (record.tapeTests[0]?.body.tapeClass.charAt(1) ?? "") : "";
  const flagsOfKind = {
    area: [...thresholdFlags(record), "--better", better],
    continuous: ["--better", better, ...(ratio ? ["--log"] : [])],
    ordinal: (letter === "" && scale !== null ? outgoingScaleFlags(scale) : null) ?? [],
    binary: [],
    time: [],
  }[kind];
  return couponTable(question, columns, {
    name: fileName(response),
    headers: ["value"],
    cellsOf: ({ datum }) => ["value" in datum ? (letter === "" ? datum.value : `${datum.value}${letter}`) : null],
    flags: ["--response", response, "--kind", kind, ...flagsOfKind],
  });
}

/** One row for each coupon. */
function couponTable(
  question: Question,
  columns: readonly Column[],
  own: {
    name: string;
    headers: string[];
    cellsOf: (coupon: QuestionCoupon) => (string | number | null)[];
    flags: string[];
  },
): OutgoingTable {
  const header = ["coupon", "treatment", ...own.headers];
  const others = columns.filter((column) => !header.includes(column.header));
  return {
    name: own.name,
    header: [...header, ...others.map((one) => one.header)],
    rows: inTreatmentOrder(question).map((coupon) => [
      coupon.coupon,
      coupon.treatment,
      ...own.cellsOf(coupon),
      ...others.map(({ writtenIn }) => writtenIn(coupon)),
    ]),
    flags: [...own.flags, ...questionFlags(question, columns)],
  };
}

/** A name that every disk takes. */
const fileName = (response: string): string =>
  response
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "") || "values";

function thresholdFlags({ plan }: TrialRecord): string[] {
  return plan.rustThresholdPercent === usualRustThresholdPercent
    ? []
    : ["--threshold", String(plan.rustThresholdPercent)];
}

function questionFlags(question: Question, columns: readonly Column[]): string[] {
  const { control, family, margin, seed, randomised, blind, declared, treatedSeparately } = question;
  const witness = question.witnesses.find((name) => question.coupons.some((one) => one.treatment === name));
  const named = columns
    .map((one) => one.header)
    .filter((header) => !usualColumns.includes(header) && !header.includes(","));
  const hasBatches = columns.some((one) => one.header === "batch");
  return [
    ...(control === null ? [] : ["--control", control]),
    ...(witness === undefined ? [] : ["--witness", witness]),
    "--family",
    family,
    ...(margin === null ? [] : ["--margin", String(margin)]),
    ...(named.length > 0 ? ["--circumstance", named.join(",")] : []),
    ...(treatedSeparately !== "assumed" && !hasBatches ? ["--treated-separately"] : []),
    ...(randomised ? [] : ["--not-randomised"]),
    ...(blind ? [] : ["--not-blind"]),
    ...(declared ? [] : ["--exploratory"]),
    "--seed",
    String(seed),
  ];
}

const usualColumns = ["block", "batch", "deviation", ...usualCircumstances];

function limitsOf({ witnesses, coupons }: Question, batch: BatchColumn): string[] {
  const named = [...new Set(coupons.flatMap((one) => Object.keys(one.circumstances)))];
  return [
    ...named
      .filter((name) => name.includes(","))
      .map((name) => `The circumstance "${name}" cannot be named on the command line: it has a comma.`),
    ...(batch.severalSteps.length > 0
      ? [
          `Several steps were done in batches (${batch.severalSteps.join(", ")}); a table has one column batch. It puts together what any of these steps put together, so its answers may say less than the trial does.`,
        ]
      : []),
    ...(witnesses.length > 1
      ? [
          `Several treatments are witnesses (${witnesses.join(", ")}); a table knows one. Leave the rows of the others out.`,
        ]
      : []),
  ];
}
