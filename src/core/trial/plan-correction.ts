/** Which parts of a plan may still be changed, and the plan that a changed draft gives. */
import { InputError } from "../input-error.ts";
import type { DeclaredQuestion } from "./declared-question.ts";
import { markedQuestions, pairedQuestions } from "./declared-too-late.ts";
import { draftOfPlan } from "./draft-of-plan.ts";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { type PlanChange, planChanges, sameLot } from "./plan-changes.ts";
import { sameValue } from "./same-value.ts";
import type { Plan, TrialRecord } from "./trial-record.ts";

/** Once a coupon was treated, put out, lost or measured, the lot has been followed: who gets what stays. */
export function isLotFollowed(record: TrialRecord): boolean {
  const { applications, deviations, putOut, looks, tapeTests, firstRustTimes, wearTests } = record;
  const { values, weighings, finishColours, circumstances, takenDown, standIns } = record;
  const done = [applications, deviations, putOut, looks, tapeTests, firstRustTimes, wearTests];
  return [...done, values, weighings, finishColours, circumstances, takenDown, standIns].some((all) => all.length > 0);
}

/** Refuses a correction that would change who got what after something was done, or draw the same lot twice. `record`: before it. */
export function requirePlanCorrection(record: TrialRecord, plan: Plan): void {
  const before = record.plans.at(-1)?.body.plan;
  if (!before) return;
  if (plan.invented !== before.invented)
    throw new InputError("plan.invented", plan.invented, `${before.invented}, as it always was`);
  if (isLotFollowed(record)) {
    const stays = "as it was planned: something was done to the coupons already";
    if (!sameValue(plan.treatments, before.treatments))
      throw new InputError("plan.treatments", names(plan), `${names(before)}, ${stays}`);
    if (!sameLot(plan, before))
      throw new InputError("plan.places", `${plan.places.length} coupons`, `the lot ${stays}`);
    return;
  }
  if (sameLot(plan, before) || plan.allocation.how !== "drawn") return;
  const { seed } = plan.allocation;
  // A lot that did not please may not be turned into another by its own seed.
  const used = record.plans.some((one) => one.body.plan.allocation.seed === seed);
  if (used) throw new InputError("plan.allocation.seed", seed, "a seed of its own for a new lot");
}

const names = ({ treatments }: Plan): string => treatments.map((one) => one.name).join(", ");

export type CorrectionMeans = {
  changes: PlanChange[];
  /** Questions that the correction makes exploratory, or asks when their results may be known. */
  madeExploratory: DeclaredQuestion[];
  newLot: boolean;
};

/** What keeping this plan would mean, said before it is kept. `record`: before it. */
export function correctionMeans(record: TrialRecord, plan: Plan): CorrectionMeans {
  const wordings = record.plans.map(({ body, seen }) => ({ declaration: body.plan, seen }));
  const before = record.plans.at(-1)?.body.plan ?? record.plan;
  const now = markedQuestions(wordings);
  const then = markedQuestions([...wordings, { declaration: plan, seen: record.seen }]);
  const wasExploratory = (one: DeclaredQuestion) =>
    pairedQuestions(now, then).some(({ before: earlier, after }) => after === one && earlier?.exploratory);
  return {
    changes: planChanges(before, plan),
    madeExploratory: then.filter((one) => one.exploratory && !wasExploratory(one)),
    newLot: !sameLot(before, plan),
  };
}

/**
 * The plan after a correction. Where the layout asked for is the same, coupons keep their numbers and places, under new names if
 * treatments were renamed; otherwise a new lot is drawn with `seed`. Where the lot was followed, who gets what is left as it was.
 */
export function correctedPlan(
  before: Plan,
  draft: DrawablePlan,
  { seed, lotFollowed }: { seed: number; lotFollowed: boolean },
): Plan {
  const { question, questions, couponSize, edgeBandMm, rustThresholdPercent, lookDays } = draft;
  const said = { question, questions, couponSize, edgeBandMm, rustThresholdPercent, lookDays };
  if (lotFollowed) return { ...before, ...said };
  const former = draftOfPlan(before);
  if (former === null || !sameValue(layout(former), layout(draft)))
    return { ...drawPlan({ ...draft, seed }), invented: before.invented };
  const treatments = draft.treatments.map(({ coupons: _coupons, ...treatment }) => treatment);
  const renamed = (name: string) => treatments[before.treatments.findIndex((one) => one.name === name)]?.name ?? name;
  const places = before.places.map((place) => ({ ...place, treatment: renamed(place.treatment) }));
  const isNamed = (name: string) => treatments.some((one) => one.name === name);
  const inOrder = questions.map((one) =>
    one.order === undefined ? one : { ...one, order: one.order.map((name) => (isNamed(name) ? name : renamed(name))) },
  );
  return { ...before, ...said, questions: inOrder, treatments, places };
}

/** What the lot depends on. Batches follow the steps that are done together. */
function layout(draft: DrawablePlan) {
  const { blocks, blockSize, batchesOfEach, spread, testCoupons, sparesOfEach, rackColumns } = draft;
  const treatments = draft.treatments.map(({ coupons, role, route }) => ({
    coupons,
    isWitness: role === "witness",
    ...(batchesOfEach === undefined ? {} : { route }),
  }));
  return { treatments, blocks, blockSize, batchesOfEach, spread, testCoupons, sparesOfEach, rackColumns };
}
