/** Steps as rows of a table: what was done coupon by coupon in one go of the hands is one row, not thirty. */
import type { Application } from "../core/trial/trial-record.ts";

export type StepRow = {
  step: string;
  startedAt: string | null;
  endedAt: string | null;
  coupons: string[];
  byItself: boolean;
  /** Lowest and highest; null where none was read. */
  tempC: { low: number; high: number } | null;
  note: string;
};

/** What has no time comes first. Neighbours in time with one coupon each, the same step, day and note become one row. */
export function stepRows(applications: readonly Application[]): StepRow[] {
  const rows: StepRow[] = [];
  for (const one of [...applications].sort((a, b) => (a.startedAt ?? "").localeCompare(b.startedAt ?? ""))) {
    const last = rows.at(-1);
    if (last && one.coupons.length === 1 && last.byItself && belongs(last, one)) {
      last.coupons.push(...one.coupons);
      last.endedAt = one.endedAt;
      last.tempC = widened(last.tempC, one.tempC);
    } else rows.push(rowOf(one));
  }
  return rows;
}

const belongs = (row: StepRow, one: Application) =>
  row.step === one.step && row.note === one.note && row.startedAt?.slice(0, 10) === one.startedAt?.slice(0, 10);

function rowOf(one: Application): StepRow {
  const { step, startedAt, endedAt, coupons, note } = one;
  return {
    step,
    startedAt,
    endedAt,
    coupons: [...coupons],
    byItself: coupons.length === 1,
    tempC: widened(null, one.tempC),
    note,
  };
}

function widened(range: StepRow["tempC"], tempC: number | null): StepRow["tempC"] {
  if (tempC === null) return range;
  return { low: Math.min(range?.low ?? tempC, tempC), high: Math.max(range?.high ?? tempC, tempC) };
}
