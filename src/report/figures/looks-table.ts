/** The grid of looks as plain rows: coupons down, dates across, each cell the looks of that coupon on that date. */
import { shuffledForLook } from "../../core/trial/look-order.ts";
import type { Look, Observed, TrialRecord, When } from "../../core/trial/trial-record.ts";
import { shortDate } from "./figure-text.ts";

export type LookCell = {
  look: Observed<Look>;
  /** Content hash of the picture with its rust outlined; null: judged without a photograph. */
  picture: string | null;
  /** Between which percentages the face's may lie, and the D610 grades there; null: judged by eye, corrected by hand, or nobody knows. */
  doubt: Doubt | null;
};
export type Doubt = { low: number; high: number; best: number; worst: number };
/** By what the photographs were read, and how many of them. */
export type ReadBy = { method: string; looks: number; correctedByHand: number };
export type LooksRow = {
  coupon: string;
  /** null while the trial is blind. */
  treatment: string | null;
  /** One entry a column; front before back. */
  cells: LookCell[][];
  /** Why the coupon is no longer looked at; null: it still is. */
  takenDown: string | null;
};
export type LooksTable = {
  columns: { key: string; label: string }[];
  rows: LooksRow[];
  readBy: ReadBy[];
  /** How sure the doubts are, %; null where there are none. */
  confidencePercent: number | null;
};

/** What the grid needs of a measurement. */
export type MeasuredPicture = {
  id: string;
  overlay: string;
  method: string;
  byHand: object | null;
  rustPercentInterval?: { low: number; high: number; confidencePercent: number } | undefined;
  gradeSpan?: { best: number; worst: number } | undefined;
};

export function looksTable(record: TrialRecord, measurements: readonly MeasuredPicture[]): LooksTable {
  const keys = [...new Set(record.looks.map((look) => whenKey(look.body.when)))].sort(byWhen);
  const measured = new Map(measurements.map((one) => [one.id, one]));
  return {
    columns: keys.map((key) => ({ key, label: key.startsWith("day ") ? key : shortDate(key) })),
    rows: couponsInOrder(record).map((coupon) => ({
      coupon,
      treatment: record.unblinded ? treatmentOf(record, coupon) : null,
      cells: keys.map((key) => cellOf(record, coupon, key, measured)),
      takenDown: takenDownOf(record, coupon),
    })),
    readBy: readBy(record, measured),
    confidencePercent:
      measurements.find((one) => one.rustPercentInterval)?.rustPercentInterval?.confidencePercent ?? null,
  };
}

/** Most used first. */
function readBy(record: TrialRecord, measured: ReadonlyMap<string, MeasuredPicture>): ReadBy[] {
  const rows = new Map<string, ReadBy>();
  for (const { body } of record.looks) {
    const one = measured.get(body.measurement ?? "");
    if (!one) continue;
    const before = rows.get(one.method) ?? { method: one.method, looks: 0, correctedByHand: 0 };
    const correctedByHand = before.correctedByHand + (one.byHand ? 1 : 0);
    rows.set(one.method, { ...before, looks: before.looks + 1, correctedByHand });
  }
  return [...rows.values()].sort((a, b) => b.looks - a.looks);
}

/** Blind: shuffled, spares, and coupons kept for a test, left out where they were never looked at. Opened: by treatment, then by number. */
function couponsInOrder(record: TrialRecord): string[] {
  const looked = new Set(record.looks.map((look) => look.body.coupon));
  const coupons = record.plan.places
    .filter((place) => (!place.spare && place.keptFor === undefined) || looked.has(place.coupon))
    .map((place) => place.coupon);
  if (!record.unblinded) return shuffledForLook(coupons, { trial: record.id, look: "grid" });
  const rank = new Map(record.plan.treatments.map((treatment, at) => [treatment.name, at]));
  const rankOf = (coupon: string) => rank.get(treatmentOf(record, coupon)) ?? 0;
  return coupons.sort((a, b) => rankOf(a) - rankOf(b) || a.localeCompare(b, "en", { numeric: true }));
}

const treatmentOf = (record: TrialRecord, coupon: string) =>
  record.plan.places.find((place) => place.coupon === coupon)?.treatment ?? "";

const takenDownOf = (record: TrialRecord, coupon: string) =>
  record.takenDown.find((one) => one.body.coupon === coupon)?.body.reason ?? null;

function cellOf(
  record: TrialRecord,
  coupon: string,
  key: string,
  measured: ReadonlyMap<string, MeasuredPicture>,
): LookCell[] {
  return record.looks
    .filter(({ body }) => body.coupon === coupon && whenKey(body.when) === key)
    .sort((a, b) => byFace(a.body.face, b.body.face))
    .map((look) => {
      const one = measured.get(look.body.measurement ?? "");
      return { look, picture: one?.overlay ?? null, doubt: one ? doubtOf(one) : null };
    });
}

function doubtOf({ rustPercentInterval: within, gradeSpan: span, byHand }: MeasuredPicture): Doubt | null {
  return within && span && !byHand ? { low: within.low, high: within.high, best: span.best, worst: span.worst } : null;
}

function byFace(a: string, b: string): number {
  if (a === b) return 0;
  return a === "front" ? -1 : b === "front" ? 1 : a.localeCompare(b, "en");
}

const whenKey = (when: When) => ("date" in when ? when.date : `day ${when.day}`);

/** Day numbers by size, dates by the calendar; a table holds one kind or the other. */
function byWhen(a: string, b: string): number {
  return a.localeCompare(b, "en", { numeric: true });
}
