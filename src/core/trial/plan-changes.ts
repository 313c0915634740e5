/** What a correction changes in a plan, one by one, so that a page and a report can say it. */
import { type DeclaredQuestion, responseName } from "./declared-question.ts";
import { pairedQuestions } from "./declared-too-late.ts";
import { sameValue } from "./same-value.ts";
import type { Plan, TrialRecord } from "./trial-record.ts";

/** Words, or lengths in mm that a face writes in the user's unit. */
export type ChangedValue = string | { mm: readonly number[] };

export type PlanChange = {
  /** Which declared question, as the answers call it; null: the whole plan. */
  of: string | null;
  what: string;
  /** null: it was not there before, or is not there any more. */
  before: ChangedValue | null;
  after: ChangedValue | null;
};

/** In the order in which a plan is read; empty: nothing differs. */
export function planChanges(before: Plan, after: Plan): PlanChange[] {
  const changed = <Value>(
    what: string,
    one: Value,
    other: Value,
    said: (value: Value) => ChangedValue,
  ): PlanChange[] => (sameValue(one, other) ? [] : [{ of: null, what, before: said(one), after: said(other) }]);
  const lengths = ({ lengthMm, widthMm, thicknessMm }: Plan["couponSize"]) => ({
    mm: [lengthMm, widthMm, thicknessMm],
  });
  return [
    ...changed("the question in words", before.question, after.question, (words) => `“${words}”`),
    ...pairedQuestions(before.questions, after.questions).flatMap((pair) => questionChanges(pair.before, pair.after)),
    ...treatmentChanges(before, after),
    ...changed("coupons", lot(before), lot(after), lotWords),
    ...changed("coupon size", before.couponSize, after.couponSize, lengths),
    ...changed("edge band", before.edgeBandMm, after.edgeBandMm, (band) => ({ mm: [band] })),
    ...changed(
      "rusted counts a face above",
      before.rustThresholdPercent,
      after.rustThresholdPercent,
      (percent) => `${percent} %`,
    ),
    ...changed("look days", before.lookDays, after.lookDays, (days) => days.join(", ")),
  ];
}

export type PlanCorrection = { id: string; on: string; by: string; why: string; changes: PlanChange[] };

/** Each correction of a plan, the first one first; `on`: when it was written down. */
export function planCorrections({ plans }: TrialRecord): PlanCorrection[] {
  return plans.flatMap(({ id, recordedAt, by, corrects, body }, at) => {
    const before = plans[at - 1]?.body.plan;
    if (!before || !corrects) return [];
    return [{ id, on: recordedAt, by, why: corrects.why, changes: planChanges(before, body.plan) }];
  });
}

/** "time to first rust, smallest difference that matters: 2 instead of 1.5". */
export function changeWords({ of, what, before, after }: PlanChange, lengthWords: (mm: readonly number[]) => string) {
  const said = (value: ChangedValue) => (typeof value === "string" ? value : lengthWords(value.mm));
  const name = of === null ? what : `${of}, ${what}`;
  if (before === null) return after === null ? name : `${name}: ${said(after)}, new`;
  return after === null
    ? `${name}: no longer (it was ${said(before)})`
    : `${name}: ${said(after)} instead of ${said(before)}`;
}

function questionChanges(before: DeclaredQuestion | null, after: DeclaredQuestion | null): PlanChange[] {
  const one = after ?? before;
  if (!one) return [];
  const of = responseName(one);
  if (before === null || after === null)
    return [{ of, what: "asked", before: before && askedWords(before), after: after && askedWords(after) }];
  const field = (what: string, read: (question: DeclaredQuestion) => string): PlanChange[] =>
    read(before) === read(after) ? [] : [{ of, what, before: read(before), after: read(after) }];
  return [
    ...field("compared", ({ family }) => familyWords[family]),
    ...field("smallest difference that matters", ({ margin }) => (margin === null ? "none" : String(margin))),
    ...field("day", ({ atDay }) => (atDay === null ? "the last common look" : String(atDay))),
    ...field("order", ({ order }) => order?.join(", ") ?? "none"),
    ...field("read as", readAs),
  ];
}

const familyWords = { control: "with the control", pairs: "every pair" } as const;

function askedWords({ family, margin, atDay }: DeclaredQuestion): string {
  return [
    familyWords[family],
    ...(margin === null ? [] : [`smallest difference that matters ${margin}`]),
    ...(atDay === null ? [] : [`on day ${atDay}`]),
  ].join(", ");
}

/** What only some responses have. */
function readAs(question: DeclaredQuestion): string {
  switch (question.response) {
    case "grade":
      return question.scale;
    case "strokes to breakthrough":
      return question.place ?? "anywhere";
    case "value": {
      const { kind, unit, better, ratio, scale, weighed, seen } = question;
      const classes = scale === null ? "" : ` from ${scale.best} (best) to ${scale.worst}`;
      return `${kind}${classes}${unit === "" ? "" : ` in ${unit}`}, ${better} is better${ratio ? ", as ratios" : ""}${weighed ? `, weighed: ${weighed}` : ""}${seen ? `, ${seen.of} of the finish colour, ${seen.state}` : ""}`;
    }
    default:
      return "";
  }
}

function treatmentChanges(before: Plan, after: Plan): PlanChange[] {
  const names = Math.max(before.treatments.length, after.treatments.length);
  return Array.from({ length: names }, (_, at) => [before.treatments[at], after.treatments[at]] as const).flatMap(
    ([one, other]) =>
      sameValue(one, other)
        ? []
        : [
            {
              of: null,
              what: `treatment ${(one ?? other)?.name}`,
              before: one ? treatmentWords(one) : null,
              after: other ? treatmentWords(other) : null,
            },
          ],
  );
}

function treatmentWords({ name, role, route }: Plan["treatments"][number]): string {
  const steps = route?.map((step) => (step.treated === "together" ? `${step.name} (together)` : step.name));
  return `${name}, ${role}${steps === undefined ? "" : `: ${steps.length === 0 ? "no step" : steps.join(", ")}`}`;
}

/** Which number gets which treatment where; a treatment by its place in the plan, so that a new name is no new lot. */
function lot({ places, treatments, allocation }: Plan) {
  return {
    coupons: places.map(({ treatment, ...place }) => ({
      ...place,
      treatment: treatments.findIndex((one) => one.name === treatment),
    })),
    allocation,
  };
}

/** The same numbers get the same treatments at the same places: no new lot was drawn. */
export const sameLot = (one: Plan, other: Plan): boolean => sameValue(lot(one), lot(other));

function lotWords({ coupons, allocation }: ReturnType<typeof lot>): string {
  const spares = coupons.filter((one) => one.spare).length;
  const blocks = new Set(coupons.flatMap(({ block }) => (block === null ? [] : [block]))).size;
  const inBlocks = blocks > 1 ? ` in ${blocks} blocks` : "";
  const counted = `${coupons.length}${inBlocks}${spares === 0 ? "" : `, ${spares} of them spares`}`;
  return allocation.how === "drawn" ? `${counted}, drawn with seed ${allocation.seed}` : counted;
}
