/** A plain table once it is read: typed rows, one value for each cell. What a user wrote down, before any question is put to it. */
import type { ValueKind } from "./declared-question.ts";
import type { RustScale, ScaleName } from "./scale-ends.ts";
import type { TakenDownReason, When } from "./trial-record.ts";

/** What all three kinds of table may say about a coupon beside its readings. null: the cell is empty. */
export type CouponCells = {
  /** In the file: the header is row 1. */
  row: number;
  coupon: string;
  treatment: string;
  block: string | null;
  batch: string | null;
  site: string | null;
  rackRow: string | number | null;
  rackColumn: string | number | null;
  edge: string | null;
  inspector: string | null;
  deviation: string | null;
  /** Columns that the user named as circumstances, under the names they have in the table. */
  circumstances: Readonly<Record<string, string | number | null>>;
};

export type LookRow = CouponCells & {
  when: When;
  face: string | null;
  /** A percent, or a class of the scale; null: a missed look. */
  reading: number | null;
  edgePercent: number | null;
  takenDown: string | null;
};

/** Rust came after `left` and by `right`; right null: not by the last look. Days or strokes. */
export type TimeRow = CouponCells & { left: number; right: number | null };
export type ValueRow = CouponCells & { value: number };

export type LooksTable = {
  kind: "looks";
  /** Words are percents by the user's own mapping. */
  readings: "percent" | "rating" | "word";
  scale: RustScale | null;
  /** Day 0, where the table has dates: given by the user, or the earliest date. null: the table counts days. */
  from: string | null;
  rows: LookRow[];
};
export type TimesTable = { kind: "times"; unit: "days" | "strokes"; rows: TimeRow[] };
export type ValuesTable = {
  kind: "values";
  response: string;
  valueKind: ValueKind;
  better: "higher" | "lower";
  /** Ordinal only: the ends of the scale in the numbers of the rows. */
  scale: { best: number; worst: number } | null;
  /** Tape classes written 5A or 5B; null: bare numbers. */
  tapeLetter: "A" | "B" | null;
  rows: ValueRow[];
};
export type PlainTable = (LooksTable | TimesTable | ValuesTable) & {
  /** What was mapped or set aside while the text was read, in words. */
  notes: string[];
};

/** How the text is to be read, where the text alone does not say. null: the user said nothing. */
export type TableReadingWishes = {
  dates: "dmy" | "mdy" | "ymd" | null;
  /** As typed; read like a date of the table. */
  from: string | null;
  scale: ScaleName | null;
  /** Percent for each word. */
  words: Readonly<Record<string, number>> | null;
  response: string | null;
  kind: ValueKind | null;
  better: "higher" | "lower" | null;
  circumstances: readonly string[];
};
export const noReadingWishes: TableReadingWishes = {
  dates: null,
  from: null,
  scale: null,
  words: null,
  response: null,
  kind: null,
  better: null,
  circumstances: [],
};

/** Reasons of `taken_down` that speak of the coupon's state: from then on it counts as the worst. */
const stateReasons: readonly string[] = ["rust", "state"] satisfies TakenDownReason[];
export const takenDownForItsState = (reason: string): boolean => stateReasons.includes(reason.trim().toLowerCase());

/** Two spellings of a name that mean the same: case and outer spaces do not count. */
export const sameName = (a: string, b: string): boolean => plainName(a) === plainName(b);
export const plainName = (name: string): string => name.trim().toLowerCase();
