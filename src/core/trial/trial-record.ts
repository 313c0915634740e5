/**
 * What is known of one trial: its plan and everything that was observed since.
 *
 * Observations only ever add up. A correction is an observation that names the one it replaces and says why;
 * `trialRecord` keeps the newest of each and hands the rest of the house one plain value.
 */
import { InputError } from "../input-error.ts";
import type { TapeClass } from "../rating/tape-classes.ts";
import type { Lab } from "../vision/colour-lab.ts";
import type { Blotch } from "../vision/finish-colour.ts";
import type { CouponPlace } from "./coupon-place.ts";
import type { DeclaredQuestion, WearPlace } from "./declared-question.ts";
import { markedQuestions, type ResultKind, resultKinds } from "./declared-too-late.ts";
import { placesAfter } from "./places-after.ts";
import { type ReadTwice, readTwice } from "./read-twice.ts";
import type { RustScale } from "./scale-ends.ts";
import type { ColourState } from "./seen-as.ts";
import type { Simulation } from "./simulation.ts";
import type { TapeTestDetails } from "./tape-test.ts";
import type { WearConditions } from "./wear-conditions.ts";
import type { WeighedState } from "./weighed-as.ts";
import { inWrittenOrder } from "./written-at.ts";

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

/** A draw that is repeated until it fulfils a rule. */
export const spreadRules = ["no treatment all on one edge"] as const;
export type SpreadRule = (typeof spreadRules)[number];

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
  /**
   * How coupons came to their treatments. "drawn": by lot within blocks and batches; "assumed": the table cannot say. The
   * seed also draws the rearrangements of the answers; without one it is 1.
   */
  allocation:
    | { how: "drawn"; seed: number; spread?: SpreadRule }
    | { how: "assumed" | "not randomised"; seed?: number };
  /** Rendered and invented data say so on every page and report. */
  invented: boolean;
};

/** When it happened: a date in the shop's own calendar, or only a day number (a table without dates). */
export type When = { date: string } | { day: number };

export const takenDownReasons = ["rust", "state", "lost", "test", "other"] as const;
export type TakenDownReason = (typeof takenDownReasons)[number];

type LookAtCoupon = {
  kind: "look";
  coupon: string;
  /** "front", "back", or what a table calls it. */
  face: string;
  when: When;
  edgePercent: number | null;
  how: "photo" | "eye" | "table";
  /** True: the inspector did not see the treatment. */
  blind: boolean;
  /** The measurement of the photograph, by id. */
  measurement: string | null;
};
/** Of the face without its edge band. */
export type PercentLook = LookAtCoupon & { rustedPercent: number };
/** A class of a published scale, where nobody wrote the percent down. */
export type ClassLook = LookAtCoupon & { rating: number; scale: RustScale };
export type Look = PercentLook | ClassLook;

export const isPercentLook = (look: Look): look is PercentLook => "rustedPercent" in look;

/** `when` null: a table gives no date. */
export type TapeTest = {
  kind: "tape test";
  coupon: string;
  when: When | null;
  /** The class that counts. */
  tapeClass: TapeClass;
  blind: boolean;
  note: string;
  /** Absent: a table, or written down before these were asked. */
  details?: TapeTestDetails;
};

/** A look's photograph read by an eye, blind and in shuffled order: it measures the inspector, and answers no question. */
export type PhotoGrading = { kind: "photo grading"; coupon: string; face: string; when: When; rustedPercent: number };

/** A time to first rust that is known without the looks: after `leftDays` and by `rightDays` (null: not by the last look). */
export type FirstRustTime = {
  kind: "first rust";
  coupon: string;
  leftDays: number;
  rightDays: number | null;
  blind: boolean;
  note: string;
};

/** Worn through after `leftStrokes` and by `rightStrokes` (null: not within the test). */
export type WearTest = {
  kind: "wear test";
  coupon: string;
  /** null: nobody wrote it down. */
  place: WearPlace | null;
  when: When | null;
  leftStrokes: number;
  rightStrokes: number | null;
  blind: boolean;
  note: string;
  /** Absent: a table, or written down before it was asked. */
  conditions?: WearConditions;
  /** Coating worn off by weighing before and after, mg. */
  massLostMg?: number;
  /** A further run on a fresh place of the same coupon: their mean counts. */
  again?: true;
};

/** One value of one coupon, in the unit of the question that has its name; yes and no are 1 (good) and 0. */
export type MeasuredValue = {
  kind: "value";
  coupon: string;
  name: string;
  value: number;
  when: When | null;
  how: "table" | "bench";
  blind: boolean;
  note: string;
  /** A further reading of the same coupon: they are taken together. */
  again?: true;
};

/** One coupon on the balance, as it showed. */
export type Weighing = {
  kind: "weighing";
  coupon: string;
  /** Hung together with it and weighed as one: they count as one coupon. */
  with: string[];
  state: WeighedState;
  massG: number;
  /** What one weighing was good to. */
  balanceMg: number;
  when: When;
  blind: boolean;
  note: string;
};

/** What a photograph with the card told of a face's colour. */
export type ColourReading = {
  photo: string;
  /** The face with its blotches outlined. */
  map: string;
  method: string;
  lab: Lab;
  lightnessSd: number;
  blotches: Blotch[];
  /** The card's grey patches in the same photograph, darkest first. */
  patches: Lab[];
};

export type FinishColour = {
  kind: "finish colour";
  coupon: string;
  when: When;
  state: ColourState;
  reading: ColourReading;
  note: string;
};

/** What a table says beside the readings, to be audited for confounding. */
export type Circumstance = { kind: "circumstance"; coupon: string; name: string; value: string | number };

/** One carrying-out of one step: every coupon named went through it together. */
export type Application = {
  kind: "application";
  step: string;
  coupons: string[];
  /** null: a table gives no time. */
  startedAt: string | null;
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
/** `site` null: nobody wrote it down. */
export type PutOut = { kind: "put out"; site: string | null; date: string; coupons: string[] };
export type TakenDown = { kind: "taken down"; coupon: string; when: When; reason: TakenDownReason; note: string };
/** A spare takes the place of a coupon that was lost or spoiled before it went out. */
export type StandIn = { kind: "stand-in"; spare: string; for: string; why: string };
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
  | PhotoGrading
  | FirstRustTime
  | WearTest
  | MeasuredValue
  | Weighing
  | FinishColour
  | Circumstance
  | TakenDown
  | StandIn
  | Simulation
  | Unblinding
  | Withdrawal;

export type Observation = {
  id: string;
  /** When the shop took it in, and who wrote it down. */
  recordedAt: string;
  by: string;
  /** The observation that this one replaces, and the reason. */
  corrects: { id: string; why: string } | null;
  /** When it was written down, where it waited on a device: by the shop's clock, and as the device's own clock had it. */
  written?: { at: string; deviceClock: string; skewMs: number };
  /** The device that it came from, where it was not the shop's own machine. */
  device?: string;
  body: ObservationBody;
};

export type Observed<Body extends ObservationBody> = Omit<Observation, "body"> & { body: Body };

/** `seen`: the kinds of results that were written down before it. */
export type PlanWording = Observed<PlanMade> & { seen: ResultKind[] };

/** A reading that there is one of for each coupon, but for further ones that say so; of colours, for further ones by who knew of the first. */
export type OneReading = TapeTest | FirstRustTime | WearTest | MeasuredValue | Weighing | FinishColour;

export type TrialRecord = {
  id: string;
  name: string;
  /** As it stands: a spare that took a place over has it, and a question declared too late says so. */
  plan: Plan;
  /** As it was written down each time, the first wording first; the last is what a correction names. */
  plans: PlanWording[];
  /** The kinds of results written down so far, withdrawn ones too: somebody saw them. */
  seen: ResultKind[];
  /** In the order they were written down; corrected and withdrawn ones are left out. */
  applications: Observed<Application>[];
  deviations: Observed<Deviation>[];
  putOut: Observed<PutOut>[];
  looks: Observed<Look>[];
  tapeTests: Observed<TapeTest>[];
  photoGradings: Observed<PhotoGrading>[];
  firstRustTimes: Observed<FirstRustTime>[];
  wearTests: Observed<WearTest>[];
  values: Observed<MeasuredValue>[];
  weighings: Observed<Weighing>[];
  finishColours: Observed<FinishColour>[];
  circumstances: Observed<Circumstance>[];
  /** Readings that two devices wrote down, neither knowing of the other; `differs` stands in none of the lists above. */
  twice: ReadTwice<Observed<OneReading>>[];
  takenDown: Observed<TakenDown>[];
  standIns: Observed<StandIn>[];
  /** What the plan could show, as it was simulated and kept. */
  simulations: Observed<Simulation>[];
  /** The trial is closed: treatments may be shown beside coupons. */
  unblinded: boolean;
  /** How many observations were replaced by a correction. */
  corrections: number;
};

/** Of a plan that nobody has carried out yet. */
export const nothingObserved = {
  plans: [],
  seen: [],
  applications: [],
  deviations: [],
  putOut: [],
  looks: [],
  tapeTests: [],
  photoGradings: [],
  firstRustTimes: [],
  wearTests: [],
  values: [],
  weighings: [],
  finishColours: [],
  circumstances: [],
  twice: [],
  takenDown: [],
  standIns: [],
  simulations: [],
  unblinded: false,
  corrections: 0,
} satisfies Omit<TrialRecord, "id" | "name" | "plan">;

/** Folds what was observed into what is known now. Refuses observations without a plan. */
export function trialRecord(trial: { id: string; name: string }, observations: readonly Observation[]): TrialRecord {
  const replaced = new Set(observations.flatMap((one) => (one.corrects ? [one.corrects.id] : [])));
  const kept = inWrittenOrder(observations.filter((one) => !replaced.has(one.id)));
  const { counting: standing, twice } = readTwice(kept, observations);
  const plans = only(observations, "plan").map((one) => ({ ...one, seen: seenBefore(observations, one.id) }));
  const written = plans.at(-1)?.body.plan;
  if (!written) throw new InputError("observations", trial.name, "a trial with a plan");
  const standIns = only(standing, "stand-in");
  const places = placesAfter(
    written.places,
    standIns.map((one) => one.body),
  );
  return {
    ...trial,
    plan: {
      ...written,
      places,
      questions: markedQuestions(plans.map(({ body, seen }) => ({ declaration: body.plan, seen }))),
    },
    plans,
    seen: seenBefore(observations, null),
    applications: only(standing, "application"),
    deviations: only(standing, "deviation"),
    putOut: only(standing, "put out"),
    looks: only(standing, "look"),
    tapeTests: only(standing, "tape test"),
    photoGradings: only(standing, "photo grading"),
    firstRustTimes: only(standing, "first rust"),
    wearTests: only(standing, "wear test"),
    values: only(standing, "value"),
    weighings: only(standing, "weighing"),
    finishColours: only(standing, "finish colour"),
    circumstances: only(standing, "circumstance"),
    // It sets apart these kinds alone.
    twice: twice as TrialRecord["twice"],
    takenDown: only(standing, "taken down"),
    standIns,
    simulations: only(standing, "simulation"),
    unblinded: only(standing, "unblinding").length > 0,
    corrections: replaced.size,
  };
}

/** In the order in which they were written down; `id` null: all so far. */
function seenBefore(observations: readonly Observation[], id: string | null): ResultKind[] {
  const at = id === null ? observations.length : observations.findIndex((one) => one.id === id);
  const kinds = new Set<ObservationBody["kind"]>(
    // Steel weighed before it was coated tells nothing of any treatment.
    observations
      .slice(0, at)
      .flatMap(({ body }) => (body.kind === "weighing" && body.state === "bare" ? [] : body.kind)),
  );
  return resultKinds.filter((kind) => kinds.has(kind));
}

function only<Kind extends ObservationBody["kind"]>(observations: readonly Observation[], kind: Kind) {
  type Body = Extract<ObservationBody, { kind: Kind }>;
  return observations.filter((one): one is Observed<Body> => one.body.kind === kind);
}
