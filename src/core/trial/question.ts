/**
 * One question put to a trial: one response, one row per coupon, and what was declared before the first look.
 * Made from a plain table or from a trial record; `answerQuestion` turns it into findings.
 */
import type { ResponseKind } from "./finding.ts";
import type { SecondPass } from "./second-pass.ts";
import type { SpreadRule } from "./trial-record.ts";

/** Rust came after `left` and by `right` (null: not by the last look). Equal ends: known exactly. */
export type TimeDatum = { left: number; right: number | null };
/** A percent, a class, a measured value; binary: 1 is the good outcome. */
export type ValueDatum = { value: number };

export type QuestionCoupon = {
  coupon: string;
  treatment: string;
  block: string | null;
  /** The planned batch in which it went through what is done together, as the lot fell; absent: no batches were drawn. */
  plot?: string;
  /**
   * Which carrying-out of a step the coupon went through, by step; null: its route skips that step.
   * A plain table has the single step "batch". A step that nobody recorded is not a key.
   */
  applications: Readonly<Record<string, string | null>>;
  /** What is audited for confounding, by name; null: not recorded for this coupon. */
  circumstances: Readonly<Record<string, string | number | null>>;
  /** In words; null: none. Paperwork and harmless ones are left out before. */
  deviation: string | null;
  datum: TimeDatum | ValueDatum;
};

/** A coupon's place on the rack as it was drawn. */
export type DrawnPlace = { coupon: string; treatment: string; row: number; column: number };

export type Question = {
  /** As in the JSON of `findings`: "time to first rust", "strokes to breakthrough", "rusted area", "grade", or a name. */
  response: string;
  kind: ResponseKind;
  /** "days", "strokes", "drags", "turns", "minutes", "%", "classes", "g/m²", "" when the table does not say. */
  unit: string;
  better: "higher" | "lower";
  /** Continuous only: the user chose ratios (log scale) beforehand. */
  ratio: boolean;
  /** Area only: percent at or below which nothing can be seen (the threshold of first rust). */
  detectionLimitPercent: number | null;
  /** Ordinal only: the ends of the scale in the numbers of the data. */
  scale: { best: number; worst: number } | null;
  family: "control" | "pairs";
  control: string | null;
  /** A factor above 1 (time, area), classes, the response's unit, or a difference of shares; null: none stated. */
  margin: number | null;
  /** In the order they appear, witnesses left out. */
  treatments: string[];
  /** Bare coupons that show how harsh the site was; never compared. */
  witnesses: string[];
  /** Witness coupons included. */
  coupons: QuestionCoupon[];
  /** Names of the steps of each treatment's route; null: nobody wrote them down (a plain table). */
  routes: Readonly<Record<string, readonly string[]>> | null;
  randomised: boolean;
  blind: boolean;
  /** False: exploratory. */
  declared: boolean;
  /** "recorded": applications say it. "confirmed": the user said each coupon by itself. "assumed": nobody said. */
  treatedSeparately: "recorded" | "confirmed" | "assumed";
  /** The draw was repeated until the places of all coupons (lost ones and witnesses too) fulfilled the rule; absent: it was not. */
  spread?: { rule: SpreadRule; places: readonly DrawnPlace[] };
  /** What a second blind pass of the same looks says of the inspector; absent: there was none. */
  secondPass?: SecondPass;
  /** Looks that two devices read differently, with nobody having said yet which stands. */
  undecidedLooks?: number;
  /** The same of the other readings that answer it. */
  undecidedReadings?: number;
  /** What blind gradings of the looks' photographs say of the measured areas; absent: there were none. */
  photoPass?: SecondPass;
  /** Treatments in their declared order: then one test of the order stands in place of the comparisons. */
  order?: readonly string[];
  seed: number;
  /** What was assumed, left out or mapped while the data were read; handed on in the answer's notes. */
  notes: string[];
};
