/** The new trial as it is typed: every field as text, so that half a number can stand there, and its way to a draft. */
import type { PlanDraft } from "../../api/plan.ts";
import { type ExpectedMedians, offeredLookDays } from "../../core/trial/look-calendar.ts";
import type { RouteStep, TreatmentRole } from "../../core/trial/trial-record.ts";
import { batchSteps } from "../../core/trial/whole-plot-levels.ts";
import { type Preferences, siPreferences } from "../../core/units.ts";
import { siFromTyped, typedNumber } from "../parts/quantity.ts";
import { newTrialText } from "../text/new-trial.ts";
import { type AskedForm, declaredOf, isOrdered, startAsked } from "./asked-form.ts";

/** Twelve weeks: a season that most can wait for. */
export const firstSeasonDays = 84;

export type TreatmentForm = { name: string; role: TreatmentRole; coupons: string; route: RouteStep[] };

export type TrialForm = {
  id: string;
  name: string;
  question: string;
  treatments: TreatmentForm[];
  /** What the lengths below were typed in. */
  lengthUnit: Preferences["length"];
  couponLength: string;
  couponWidth: string;
  couponThickness: string;
  edgeBand: string;
  threshold: string;
  blocks: string;
  sparesOfEach: string;
  rackColumns: string;
  /** Different treatments in a block; empty: all of them. */
  blockSize: string;
  batchesOfEach: string;
  spread: boolean;
  /** Coupons of each treatment that a test uses up; empty or 0: none. */
  tapeCoupons: string;
  strippedCoupons: string;
  looks: string;
  /** Days by which half rusted in a former trial; empty: nobody knows yet. */
  controlMedian: string;
  bestMedian: string;
  /** Which of `asked` is simulated, by its place there; one that is not asked: the first that is. */
  chanceOf: string;
  asked: AskedForm[];
  seed: string;
};

/** Where a field stands in the request, so that the page's own refusals and the server's stand beside the same field. */
export type FormProblem = { pointer: string; detail: string };

export const anyTreatment = (role: TreatmentRole, like?: TreatmentForm): TreatmentForm => ({
  name: "",
  role,
  coupons: like?.coupons ?? "6",
  route: like ? like.route.map((step) => ({ ...step })) : [{ name: "", treated: "alone" }],
});

export function startForm(start: { id: string; seed: number; length: Preferences["length"] }): TrialForm {
  const inches = start.length === "in";
  return {
    id: start.id,
    name: "",
    question: "",
    treatments: [
      anyTreatment("control"),
      anyTreatment("finish"),
      { ...anyTreatment("witness"), coupons: "2", route: [] },
    ],
    lengthUnit: start.length,
    couponLength: inches ? "6" : "150",
    couponWidth: inches ? "4" : "100",
    couponThickness: inches ? "0.125" : "3",
    edgeBand: inches ? "0.2" : "5",
    threshold: "0.01",
    blocks: "3",
    sparesOfEach: "0",
    rackColumns: "6",
    blockSize: "",
    batchesOfEach: "1",
    spread: false,
    tapeCoupons: "0",
    strippedCoupons: "0",
    looks: offeredLookDays(firstSeasonDays).join(", "),
    controlMedian: "",
    bestMedian: "",
    chanceOf: "",
    asked: startAsked(),
    seed: String(start.seed),
  };
}

/** The days that were typed, in order and each once; null when one of them is no number. */
export function daysTyped(typed: string): number[] | null {
  const parts = typed.split(/[\s,;]+/).filter((part) => part !== "");
  const days = parts.map(typedNumber);
  if (days.some((day) => day === null)) return null;
  return [...new Set(days.flatMap((day) => (day === null ? [] : [day])))].sort((a, b) => a - b);
}

/** What a former trial lets the user expect; null unless both days were said. */
export function expectedMedians(form: TrialForm): ExpectedMedians | null {
  const controlDays = typedNumber(form.controlMedian);
  const bestDays = typedNumber(form.bestMedian);
  return controlDays === null || bestDays === null ? null : { controlDays, bestDays };
}

export type DraftOrProblems = { draft: PlanDraft; problems: [] } | { draft: null; problems: FormProblem[] };

/** The draft that the form says, or what is not a number or a name yet. What it then means is for `core` to judge. */
export function draftOf(form: TrialForm): DraftOrProblems {
  const problems: FormProblem[] = [];
  const refuse = (pointer: string, detail: string) => problems.push({ pointer, detail });
  const numberAt = (pointer: string, typed: string): number => {
    const value = typedNumber(typed);
    if (value === null) refuse(pointer, newTrialText.wanted.number(typed));
    return value ?? 0;
  };
  const lengthAt = (pointer: string, typed: string): number => {
    const value = siFromTyped("length", typed, { ...siPreferences, length: form.lengthUnit });
    if (value === null) refuse(pointer, newTrialText.wanted.number(typed));
    return value ?? 0;
  };

  if (form.question.trim() === "") refuse("/draft/question", newTrialText.wanted.question);
  const asked = form.asked.filter((one) => one.asked);
  if (asked.length === 0) refuse("/draft/questions", newTrialText.wanted.questions);
  const lookDays = daysTyped(form.looks);
  if (lookDays === null || lookDays.length === 0) refuse("/draft/lookDays", newTrialText.wanted.days(form.looks));

  const draft: PlanDraft = {
    question: form.question.trim(),
    questions: asked.map((one, at) => ({
      ...declaredOf(one, {
        numberAt: (field, typed) => numberAt(`/draft/questions/${at}${field}`, typed),
        refuse: (field, detail) => refuse(`/draft/questions/${at}${field}`, detail),
      }),
      ...(isOrdered(one) ? { order: comparedNames(form) } : {}),
    })),
    treatments: form.treatments.map((one, at) => {
      if (one.name.trim() === "") refuse(`/draft/treatments/${at}/name`, newTrialText.wanted.treatmentName);
      const route = one.route.map((step) => ({ ...step, name: step.name.trim() })).filter((step) => step.name !== "");
      return {
        name: one.name.trim(),
        role: one.role,
        route,
        coupons: numberAt(`/draft/treatments/${at}/coupons`, one.coupons),
      };
    }),
    blocks: numberAt("/draft/blocks", form.blocks),
    sparesOfEach: numberAt("/draft/sparesOfEach", form.sparesOfEach),
    couponSize: {
      lengthMm: lengthAt("/draft/couponSize/lengthMm", form.couponLength),
      widthMm: lengthAt("/draft/couponSize/widthMm", form.couponWidth),
      thicknessMm: lengthAt("/draft/couponSize/thicknessMm", form.couponThickness),
    },
    edgeBandMm: lengthAt("/draft/edgeBandMm", form.edgeBand),
    rustThresholdPercent: numberAt("/draft/rustThresholdPercent", form.threshold),
    lookDays: lookDays ?? [],
    rackColumns: numberAt("/draft/rackColumns", form.rackColumns),
    ...layoutOf(form, numberAt),
    seed: numberAt("/draft/seed", form.seed),
  };
  return problems.length > 0 ? { draft: null, problems } : { draft, problems: [] };
}

/** In the order in which they stand in the form. */
export const comparedNames = ({ treatments }: Pick<TrialForm, "treatments">): string[] =>
  treatments.filter((one) => one.role !== "witness").map((one) => one.name.trim());

/** Whether any step is done to a batch: only then can there be several. */
export const batchStepsOf = ({ treatments }: Pick<TrialForm, "treatments">): string[] =>
  batchSteps(treatments).filter((step) => step.trim() !== "");

/** Blocks too small for every treatment are offered for measured values only. */
export const takesSmallBlocks = ({ asked }: Pick<TrialForm, "asked">): boolean => {
  const chosen = asked.filter((one) => one.asked);
  return chosen.length > 0 && chosen.every((one) => one.response === "value" && one.kind === "continuous");
};

function layoutOf(form: TrialForm, numberAt: (pointer: string, typed: string) => number) {
  const batchesOfEach = batchStepsOf(form).length > 0 ? numberAt("/draft/batchesOfEach", form.batchesOfEach) : 1;
  const tests = [
    { test: "tape test", ofEach: numberAt("/draft/testCoupons/tape", form.tapeCoupons) },
    { test: "weighing by stripping", ofEach: numberAt("/draft/testCoupons/stripped", form.strippedCoupons) },
  ] as const;
  const testCoupons = tests.filter(({ ofEach }) => ofEach !== 0);
  return {
    ...(takesSmallBlocks(form) && form.blockSize.trim() !== ""
      ? { blockSize: numberAt("/draft/blockSize", form.blockSize) }
      : {}),
    ...(batchesOfEach === 1 ? {} : { batchesOfEach }),
    ...(form.spread ? { spread: "no treatment all on one edge" as const } : {}),
    ...(testCoupons.length > 0 ? { testCoupons } : {}),
  };
}

/** What each part of the page gets of the form. */
export type FormPart = {
  form: TrialForm;
  change: (part: Partial<TrialForm>) => void;
  /** What is wrong with a field, by its place in the request. */
  errorAt: (pointer: string) => string | null;
};
