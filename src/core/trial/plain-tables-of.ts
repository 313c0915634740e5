/**
 * A stored trial as plain tables, with the options under which `findings` answers from them as the trial does. One table for
 * each declared question, since area and grade on a planned day are values drawn from looks that may lie a day beside it.
 */

import { exposureDay } from "./exposure-days.ts";
import { usualRustThresholdPercent } from "./look-responses.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { type BatchColumn, batchColumn } from "./table-batch-column.ts";
import { takenDownWords } from "./trial-look-series.ts";
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
    if (question === null) {
      cannot.push(`The question of ${asked.response} has no table: ${why}.`);
      continue;
    }
    const unseen = question.treatments.filter((name) => !question.coupons.some((one) => one.treatment === name));
    if (unseen.length > 0) {
      cannot.push(`The question of ${asked.response} has no table: nothing was observed of ${unseen.join(", ")}.`);
      continue;
    }
    const batch = batchColumn(question);
    cannot.push(...limitsOf(question, batch));
    tables.push(question.kind === "time" ? looksTable(record, question, batch) : valuesTable(record, question, batch));
  }
  return { tables: withOwnNames(tables), cannot: [...new Set(cannot)] };
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

function looksTable(record: TrialRecord, question: Question, batch: BatchColumn): OutgoingTable {
  const columns = couponColumns(question, batch);
  const rows = inTreatmentOrder(question).flatMap((coupon) =>
    lookRows(record, coupon.coupon).map((look) => [
      coupon.coupon,
      coupon.treatment,
      look.day,
      look.face,
      look.rustedPercent,
      look.edgePercent,
      look.takenDown,
      ...columns.map(({ writtenIn }) => writtenIn(coupon)),
    ]),
  );
  const header = ["coupon", "treatment", "day", "face", "rusted_percent", "edge_percent", "taken_down"];
  return {
    name: "looks",
    header: [...header, ...columns.map((one) => one.header)],
    rows,
    flags: [...thresholdFlags(record), ...questionFlags(question, columns)],
  };
}

type OutgoingLook = {
  day: number;
  face: "front" | "back" | null;
  rustedPercent: number | null;
  edgePercent: number | null;
  takenDown: string | null;
};

/** One row for a coupon, face and day: where a face was read twice, the worse reading, which is the one that counts. */
function lookRows(record: TrialRecord, coupon: string): OutgoingLook[] {
  const rows = new Map<string, OutgoingLook>();
  for (const { body } of record.looks) {
    const day = body.coupon === coupon ? exposureDay(record, coupon, body.when) : null;
    if (day === null) continue;
    const key = `${day} ${body.face}`;
    const other = rows.get(key);
    if (other?.rustedPercent != null && other.rustedPercent >= body.rustedPercent) continue;
    rows.set(key, {
      day,
      face: body.face,
      rustedPercent: body.rustedPercent,
      edgePercent: body.edgePercent,
      takenDown: null,
    });
  }
  const inOrder = [...rows.values()].sort((a, b) => a.day - b.day);
  const down = record.takenDown.find(({ body }) => body.coupon === coupon)?.body;
  const downDay = down ? exposureDay(record, coupon, down.when) : null;
  if (!down || downDay === null) return inOrder;
  const takenDown = takenDownWords(down);
  const last = inOrder.findLast((look) => look.day === downDay);
  if (!last) return [...inOrder, { day: downDay, face: null, rustedPercent: null, edgePercent: null, takenDown }];
  return inOrder.map((look) => (look === last ? { ...look, takenDown } : look));
}

function valuesTable(record: TrialRecord, question: Question, batch: BatchColumn): OutgoingTable {
  const columns = couponColumns(question, batch);
  const letter = question.kind === "ordinal" ? (record.tapeTests[0]?.body.tapeClass.charAt(1) ?? "") : "";
  return {
    name: question.response.replaceAll(" ", "-"),
    header: ["coupon", "treatment", "value", ...columns.map((one) => one.header)],
    rows: inTreatmentOrder(question).map((coupon) => [
      coupon.coupon,
      coupon.treatment,
      "value" in coupon.datum ? (letter === "" ? coupon.datum.value : `${coupon.datum.value}${letter}`) : null,
      ...columns.map(({ writtenIn }) => writtenIn(coupon)),
    ]),
    flags: [
      "--response",
      question.response,
      "--kind",
      question.kind,
      ...(question.kind === "area" ? thresholdFlags(record) : []),
      ...questionFlags(question, columns),
    ],
  };
}

function thresholdFlags({ plan }: TrialRecord): string[] {
  return plan.rustThresholdPercent === usualRustThresholdPercent
    ? []
    : ["--threshold", String(plan.rustThresholdPercent)];
}

function questionFlags(question: Question, columns: readonly Column[]): string[] {
  const { control, family, margin, seed, randomised, blind, treatedSeparately } = question;
  const witness = question.witnesses.find((name) => question.coupons.some((one) => one.treatment === name));
  const named = columns.map((one) => one.header).filter((header) => !usualColumns.includes(header));
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
    "--seed",
    String(seed),
  ];
}

const usualColumns = ["block", "batch", "deviation", ...usualCircumstances];

function limitsOf({ witnesses }: Question, batch: BatchColumn): string[] {
  return [
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
