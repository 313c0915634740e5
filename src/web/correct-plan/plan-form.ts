/** A plan as the form of a new trial has it, and the plan that the changed form gives. */
import type { PlanDraft } from "../../api/plan.ts";
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import { draftOfPlan } from "../../core/trial/draft-of-plan.ts";
import { correctedPlan } from "../../core/trial/plan-correction.ts";
import { sameValue } from "../../core/trial/same-value.ts";
import type { Plan } from "../../core/trial/trial-record.ts";
import { type Preferences, siPreferences } from "../../core/units.ts";
import { type AskedForm, blankAsked, startAsked } from "../new-trial/asked-form.ts";
import { draftOf, type FormProblem, startForm, type TrialForm } from "../new-trial/trial-form.ts";
import { typedQuantity } from "../parts/quantity.ts";

/** `seed`: of a new lot, should one be drawn. */
export function formOfPlan(plan: Plan, { seed, length }: { seed: number; length: Preferences["length"] }): TrialForm {
  // A plan from a table was not drawn; its lot stays in any case.
  const draft = draftOfPlan(plan);
  const typed = (mm: number) => typedQuantity("length", mm, { ...siPreferences, length });
  const tested = (test: string) => String(draft?.testCoupons?.find((one) => one.test === test)?.ofEach ?? 0);
  return {
    ...startForm({ id: "", seed, length }),
    question: plan.question,
    treatments: plan.treatments.map(({ name, role, route }, at) => {
      return { name, role, route: route ?? [], coupons: String(draft?.treatments[at]?.coupons ?? 1) };
    }),
    couponLength: typed(plan.couponSize.lengthMm),
    couponWidth: typed(plan.couponSize.widthMm),
    couponThickness: typed(plan.couponSize.thicknessMm),
    edgeBand: typed(plan.edgeBandMm),
    threshold: String(plan.rustThresholdPercent),
    blocks: String(draft?.blocks ?? 1),
    sparesOfEach: String(draft?.sparesOfEach ?? 0),
    rackColumns: String(draft?.rackColumns ?? 1),
    blockSize: String(draft?.blockSize ?? ""),
    batchesOfEach: String(draft?.batchesOfEach ?? 1),
    spread: draft?.spread !== undefined,
    tapeCoupons: tested("tape test"),
    strippedCoupons: tested("weighing by stripping"),
    looks: plan.lookDays.join(", "),
    asked: [
      ...plan.questions.map(askedOf),
      ...startAsked()
        .filter((blank) => !plan.questions.some((one) => one.response === blank.response))
        .map((blank) => ({ ...blank, asked: false })),
    ],
  };
}

function askedOf(question: DeclaredQuestion): AskedForm {
  const { response, family, margin, atDay, order } = question;
  const asked: AskedForm = {
    ...blankAsked(response),
    asked: true,
    family: order === undefined ? family : "order",
    margin: margin === null ? "" : String(margin),
    atDay: atDay === null ? "" : String(atDay),
  };
  if (question.response === "grade") return { ...asked, scale: question.scale };
  if (question.response === "strokes to breakthrough") return { ...asked, place: question.place ?? asked.place };
  if (question.response !== "value") return asked;
  const { name, kind, unit, better, ratio, scale, weighed, seen } = question;
  const ends = scale === null ? {} : { best: String(scale.best), worst: String(scale.worst) };
  return {
    ...asked,
    name,
    kind,
    unit,
    better,
    ratio,
    weighed: weighed ?? seen?.of ?? "typed",
    state: seen?.state ?? asked.state,
    ...ends,
  };
}

export type Correcting = {
  /** As the plan was written down, and as the form began with it. */
  before: Plan;
  began: TrialForm;
  /** Who got what stays as it is. */
  lotFollowed: boolean;
};
export type PlanOrProblems = { plan: Plan; problems: [] } | { plan: null; problems: FormProblem[] };

/** What was not touched stays to the last digit: a form shows lengths rounded, and not all that a question may hold. */
export function planOf(form: TrialForm, { before, began, lotFollowed }: Correcting): PlanOrProblems {
  const read = draftOf(form);
  if (read.draft === null) return { plan: null, problems: read.problems };
  const kept = <Value>(field: keyof TrialForm, stood: Value, typed: Value) =>
    form[field] === began[field] ? stood : typed;
  const { couponSize, edgeBandMm, question } = read.draft;
  const draft: PlanDraft = {
    ...read.draft,
    question: kept("question", before.question, question),
    questions: form.asked
      .filter((one) => one.asked)
      .map((one, at) => untouched(one, began, before) ?? read.draft.questions[at]!),
    couponSize: {
      lengthMm: kept("couponLength", before.couponSize.lengthMm, couponSize.lengthMm),
      widthMm: kept("couponWidth", before.couponSize.widthMm, couponSize.widthMm),
      thicknessMm: kept("couponThickness", before.couponSize.thicknessMm, couponSize.thicknessMm),
    },
    edgeBandMm: kept("edgeBand", before.edgeBandMm, edgeBandMm),
    lookDays: kept("looks", before.lookDays, read.draft.lookDays),
  };
  return { plan: correctedPlan(before, draft, { seed: draft.seed, lotFollowed }), problems: [] };
}

function untouched(asked: AskedForm, began: TrialForm, { questions }: Plan): DeclaredQuestion | null {
  return questions[began.asked.findIndex((one) => sameValue(declaring(one), declaring(asked)))] ?? null;
}

/** What is expected for the simulation declares nothing. */
const declaring = ({ chance: _expected, ...asked }: AskedForm) => asked;
