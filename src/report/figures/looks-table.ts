/** The grid of looks as plain rows: coupons down, dates across, each cell the looks of that coupon on that date. */
import { shuffledForLook } from "../../core/trial/look-order.ts";
import type { Look, Observed, TrialRecord, When } from "../../core/trial/trial-record.ts";
import { shortDate } from "./figure-text.ts";

export type LookCell = {
  look: Observed<Look>;
  /** Content hash of the picture with its rust outlined; null: judged without a photograph. */
  picture: string | null;
};
export type LooksRow = {
  coupon: string;
  /** null while the trial is blind. */
  treatment: string | null;
  /** One entry a column; front before back. */
  cells: LookCell[][];
  /** Why the coupon is no longer looked at; null: it still is. */
  takenDown: string | null;
};
export type LooksTable = { columns: { key: string; label: string }[]; rows: LooksRow[] };

/** What the grid needs of a measurement. */
export type MeasuredPicture = { id: string; overlay: string };

export function looksTable(record: TrialRecord, measurements: readonly MeasuredPicture[]): LooksTable {
  const keys = [...new Set(record.looks.map((look) => whenKey(look.body.when)))].sort(byWhen);
  const overlays = new Map(measurements.map((one) => [one.id, one.overlay]));
  return {
    columns: keys.map((key) => ({ key, label: key.startsWith("day ") ? key : shortDate(key) })),
    rows: couponsInOrder(record).map((coupon) => ({
      coupon,
      treatment: record.unblinded ? treatmentOf(record, coupon) : null,
      cells: keys.map((key) => cellOf(record, coupon, key, overlays)),
      takenDown: takenDownOf(record, coupon),
    })),
  };
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

function cellOf(record: TrialRecord, coupon: string, key: string, overlays: Map<string, string>): LookCell[] {
  return record.looks
    .filter(({ body }) => body.coupon === coupon && whenKey(body.when) === key)
    .sort((a, b) => byFace(a.body.face, b.body.face))
    .map((look) => ({ look, picture: overlays.get(look.body.measurement ?? "") ?? null }));
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
