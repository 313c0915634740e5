/**
 * What is known of one trial: its plan and everything that was observed since.
 *
 * Observations only ever add up. A correction is an observation that names the one it replaces and says why;
 * `trialRecord` keeps the newest of each and hands the rest of the house one plain value.
 */
import { InputError } from "../input-error.ts";
import type { TapeClass } from "../rating/tape-classes.ts";

export const treatmentRoles = ["control", "finish", "witness"] as const;
export type TreatmentRole = (typeof treatmentRoles)[number];

/** One step of a treatment's route. Two routes share a step when its name is the same. */
export type RouteStep = {
  name: string;
  /** "alone": each coupon by itself (own dip, wipe, spray). "together": several coupons in one go. */
  treated: "alone" | "together";
};

export type Treatment = {
  name: string;
  role: TreatmentRole;
  /** null: nobody wrote the route down (a trial made of a plain table). */
  route: RouteStep[] | null;
};

/** Where a numbered coupon stands. Drawn by lot from the plan's seed, or read from a table. */
export type CouponPlace = {
  coupon: string;
  treatment: string;
  block: string | null;
  rack: { row: number; column: number } | null;
  /** A spare is coated along with its treatment and not put out unless another is lost before that. */
  spare: boolean;
  /** Which of the planned batches carries it through the steps done together that not all treatments have; absent: one go for all. */
  batch?: string;
  /** Coated along and never hung: it is used up by this test before the others are put out. */
  keptFor?: DestructiveTest;
};

/** Tests that use a coupon up. Before exposure they need coupons of their own, and their n is theirs. */
export const destructiveTests = ["tape test", "weighing by stripping"] as const;
export type DestructiveTest = (typeof destructiveTests)[number];

/** A draw that is repeated until it fulfils a rule. */
export const spreadRules = ["no treatment all on one edge"] as const;
export type SpreadRule = (typeof spreadRules)[number];

export const declaredResponses = ["time to first rust", "rusted area", "tape class"] as const;
export type DeclaredResponse = (typeof declaredResponses)[number];

/** One response with its family of comparisons and margin, declared before the first look. */
export type DeclaredQuestion = {
  response: DeclaredResponse;
  family: "control" | "pairs";
  /** A factor above 1 for time and area, classes for tape; null: no size is called too small to matter. */
  margin: number | null;
  /** Primary date of a repeated measure, days from the start; null: the last look that all compared coupons have. */
  atDay: number | null;
  /** Treatments in an order that was declared (more oil, longer bath): one test of the order, in place of the comparisons. */
  order?: string[];
};

export type Plan = {
  /** In the user's words. */
  question: string;
  questions: DeclaredQuestion[];
  treatments: Treatment[];
  couponSize: { lengthMm: number; widthMm: number; thicknessMm: number };
  edgeBandMm: number;
  /** Rusted percent strictly above which a face counts as rusted. */
  rustThresholdPercent: number;
  lookDays: number[];
  places: CouponPlace[];
  /** How coupons came to their treatments. "drawn": by lot within blocks and batches; "assumed": the table cannot say. */
  allocation: { how: "drawn"; seed: number; spread?: SpreadRule } | { how: "assumed" } | { how: "not randomised" };
  /** Rendered and invented data say so on every page and report. */
  invented: boolean;
};

/** When it happened: a date in the shop's own calendar, or only a day number (a table without dates). */
export type When = { date: string } | { day: number };

export const takenDownReasons = ["rust", "state", "lost", "test", "other"] as const;
export type TakenDownReason = (typeof takenDownReasons)[number];

export type Look = {
  kind: "look";
  coupon: string;
  face: "front" | "back";
  when: When;
  /** Of the face without its edge band. */
  rustedPercent: number;
  edgePercent: number | null;
  how: "photo" | "eye" | "table";
  /** True: the inspector did not see the treatment. */
  blind: boolean;
  /** The measurement of the photograph, by id. */
  measurement: string | null;
};

export type TapeTest = {
  kind: "tape test";
  coupon: string;
  when: When;
  tapeClass: TapeClass;
  blind: boolean;
  note: string;
};

/** One carrying-out of one step: every coupon named went through it together. */
export type Application = {
  kind: "application";
  step: string;
  coupons: string[];
  startedAt: string;
  endedAt: string | null;
  tempC: number | null;
  note: string;
};

export type Deviation = {
  kind: "deviation";
  coupons: string[];
  step: string | null;
  what: string;
  paperworkOnly: boolean;
};
export type PutOut = { kind: "put out"; site: string; date: string; coupons: string[] };
export type TakenDown = { kind: "taken down"; coupon: string; when: When; reason: TakenDownReason; note: string };
export type Unblinding = { kind: "unblinding" };
export type PlanMade = { kind: "plan"; plan: Plan };
/** A withdrawn observation: the correction that says it should never have been written. */
export type Withdrawal = { kind: "withdrawal" };

export type ObservationBody =
  | PlanMade
  | Application
  | Deviation
  | PutOut
  | Look
  | TapeTest
  | TakenDown
  | Unblinding
  | Withdrawal;

export type Observation = {
  id: string;
  /** When it was written down, and by whom. */
  recordedAt: string;
  by: string;
  /** The observation that this one replaces, and the reason. */
  corrects: { id: string; why: string } | null;
  body: ObservationBody;
};

export type Observed<Body extends ObservationBody> = Omit<Observation, "body"> & { body: Body };

export type TrialRecord = {
  id: string;
  name: string;
  plan: Plan;
  /** In the order they were recorded; corrected and withdrawn ones are left out. */
  applications: Observed<Application>[];
  deviations: Observed<Deviation>[];
  putOut: Observed<PutOut>[];
  looks: Observed<Look>[];
  tapeTests: Observed<TapeTest>[];
  takenDown: Observed<TakenDown>[];
  /** The trial is closed: treatments may be shown beside coupons. */
  unblinded: boolean;
  /** How many observations were replaced by a correction. */
  corrections: number;
};

/** Folds what was observed into what is known now. Refuses observations without a plan. */
export function trialRecord(trial: { id: string; name: string }, observations: readonly Observation[]): TrialRecord {
  const replaced = new Set(observations.flatMap((one) => (one.corrects ? [one.corrects.id] : [])));
  const standing = observations.filter((one) => !replaced.has(one.id));
  const plans = only(standing, "plan");
  const plan = plans.at(-1)?.body.plan;
  if (!plan) throw new InputError("observations", trial.name, "a trial with a plan");
  return {
    ...trial,
    plan,
    applications: only(standing, "application"),
    deviations: only(standing, "deviation"),
    putOut: only(standing, "put out"),
    looks: only(standing, "look"),
    tapeTests: only(standing, "tape test"),
    takenDown: only(standing, "taken down"),
    unblinded: only(standing, "unblinding").length > 0,
    corrections: replaced.size,
  };
}

function only<Kind extends ObservationBody["kind"]>(observations: readonly Observation[], kind: Kind) {
  type Body = Extract<ObservationBody, { kind: Kind }>;
  return observations.filter((one): one is Observed<Body> => one.body.kind === kind);
}
