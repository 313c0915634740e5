/** Each question that a stored trial declared, put to what was observed so far. */
import { InputError } from "../input-error.ts";
import { type Assumptions, assumptionNotes } from "./assumptions.ts";
import { comparisonGroups } from "./comparison-groups.ts";
import { ownTest } from "./coupons-of-question.ts";
import { type DeclaredQuestion, responseName } from "./declared-question.ts";
import { lookConflicts } from "./look-conflicts.ts";
import type { MeasuredResponse } from "./look-responses.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { photoPass, secondPass } from "./second-pass.ts";
import { spreadOf } from "./spread-acceptance.ts";
import { isTreatmentRecorded, trialApplications } from "./trial-applications.ts";
import { trialCircumstances } from "./trial-circumstances.ts";
import type { TrialRecord } from "./trial-record.ts";
import { type Reading, readingsFor, trialResponse } from "./trial-responses.ts";
import { undecidedReadings } from "./undecided-readings.ts";
import { witnessNotes } from "./witness-notes.ts";

/** `question` null: not to be answered yet, and why. */
export type DeclaredAnswerable = { declared: DeclaredQuestion } & (
  | { question: Question; why: null }
  | { question: null; why: string }
);

/** The questions that can be put now, in the order they were declared. */
export function trialQuestions(record: TrialRecord): Question[] {
  return declaredQuestions(record).flatMap(({ question }) => (question ? [question] : []));
}

/** Every declared question; one that cannot be put yet says why, so that a page about the others still stands. */
export function declaredQuestions(record: TrialRecord): DeclaredAnswerable[] {
  return record.plan.questions.map((declared) => {
    try {
      const question = questionOf(record, declared);
      const compared = question.coupons.filter((one) => question.treatments.includes(one.treatment));
      return compared.length > 0
        ? { declared, question, why: null }
        : { declared, question: null, why: `nothing was observed yet about ${responseName(declared)}` };
    } catch (error) {
      if (error instanceof InputError) return { declared, question: null, why: error.message };
      throw error;
    }
  });
}

function questionOf(record: TrialRecord, declared: DeclaredQuestion): Question {
  const { plan } = record;
  const groups = trialGroups(record, declared);
  const compared = plan.places.filter((place) => groups.treatments.includes(place.treatment));
  const measured = trialResponse(record, declared, new Set(compared.map((place) => place.coupon)));
  const readings = readingsFor(record, declared);
  const assumptions = assumptionsOf(record, { declared, readings, treatments: groups.treatments });
  const { data: all, notes, ...response } = measured;
  const { data, leftOut } = ofKeptCoupons(record, declared, all);
  const coupons = couponsOf(record, { treatments: groups.treatments, readings, data, assumptions });
  return {
    ...response,
    ...groups,
    ...assumptions,
    margin: declared.margin,
    coupons,
    routes: routesOf(record),
    ...spreadOf(plan),
    ...secondPassOf(record, measured),
    ...undecidedOf(record, declared),
    ...(declared.order === undefined ? {} : { order: declared.order }),
    seed: plan.allocation.seed ?? 1,
    notes: [
      ...notes,
      ...leftOut,
      ...witnessNotes({ witnesses: groups.witnesses, coupons, unit: measured.unit }),
      ...assumptionNotes(assumptions, plan.allocation.how === "drawn" ? "plan" : "table"),
    ],
  };
}

/** Where the plan keeps coupons for a test that uses them up, they alone answer it: after weeks outdoors it is another test. */
function ofKeptCoupons(
  { plan }: TrialRecord,
  declared: DeclaredQuestion,
  data: MeasuredResponse["data"],
): { data: MeasuredResponse["data"]; leftOut: string[] } {
  const test = ownTest(plan.places, declared);
  if (test === null) return { data, leftOut: [] };
  const kept = new Set(plan.places.flatMap(({ coupon, keptFor }) => (keptFor === test ? [coupon] : [])));
  const others = [...data.keys()].filter((coupon) => !kept.has(coupon));
  return {
    data: new Map([...data].filter(([coupon]) => kept.has(coupon))),
    leftOut: others.length > 0 ? [`Left out: coupons ${others.join(", ")}, which were not kept for the ${test}.`] : [],
  };
}

function trialGroups({ plan }: TrialRecord, { family }: DeclaredQuestion) {
  const control = plan.treatments.find((one) => one.role === "control")?.name ?? null;
  const witnesses = plan.treatments.filter((one) => one.role === "witness").map((one) => one.name);
  const others = plan.treatments.map((one) => one.name).filter((name) => !witnesses.includes(name));
  return { ...comparisonGroups(others, { control, witness: null, family }), witnesses };
}

function couponsOf(
  record: TrialRecord,
  {
    treatments,
    readings,
    data,
    assumptions,
  }: {
    treatments: readonly string[];
    readings: readonly Reading[];
    data: MeasuredResponse["data"];
    assumptions: Assumptions;
  },
): QuestionCoupon[] {
  const applications = trialApplications(record);
  const circumstances = trialCircumstances(record, treatments, readings);
  const unknown = assumptions.treatedSeparately === "assumed" && routesOf(record) === null;
  return record.plan.places.flatMap(({ coupon, treatment, block, batch }) => {
    const datum = data.get(coupon);
    if (!datum) return [];
    return [
      {
        coupon,
        treatment,
        block,
        ...(batch === undefined ? {} : { plot: batch }),
        applications: unknown ? {} : (applications.get(coupon) ?? {}),
        circumstances: circumstances.get(coupon) ?? {},
        deviation: deviationOf(record, coupon),
        datum,
      },
    ];
  });
}

/** Of responses that are read from looks. */
function secondPassOf(
  record: TrialRecord,
  { response }: Pick<Question, "response">,
): Pick<Question, "secondPass" | "photoPass" | "undecidedLooks"> {
  if (!["time to first rust", "rusted area", "grade"].includes(response)) return {};
  const [again, photographs, undecidedLooks] = [secondPass(record), photoPass(record), lookConflicts(record).length];
  return {
    ...(again && { secondPass: again }),
    ...(photographs && { photoPass: photographs }),
    ...(undecidedLooks > 0 && { undecidedLooks }),
  };
}

function undecidedOf(record: TrialRecord, declared: DeclaredQuestion): Pick<Question, "undecidedReadings"> {
  const count = undecidedReadings(record, declared);
  return count > 0 ? { undecidedReadings: count } : {};
}

function deviationOf({ deviations }: TrialRecord, coupon: string): string | null {
  const own = deviations.filter(({ body }) => !body.paperworkOnly && body.coupons.includes(coupon));
  return own.length > 0 ? own.map(({ body }) => body.what).join("; ") : null;
}

function routesOf({ plan }: TrialRecord): Question["routes"] {
  const routes = plan.treatments.map(({ name, route }) => [name, route?.map((step) => step.name) ?? null] as const);
  return routes.every((pair): pair is readonly [string, string[]] => pair[1] !== null)
    ? Object.fromEntries(routes)
    : null;
}

function assumptionsOf(
  record: TrialRecord,
  {
    declared,
    readings,
    treatments,
  }: { declared: DeclaredQuestion; readings: readonly Reading[]; treatments: readonly string[] },
): Assumptions {
  return {
    randomised: record.plan.allocation.how !== "not randomised",
    // A photograph is measured by its colours; only an eye can be led by a name.
    blind: readings.every(({ body }) => isReadByPhoto(body) || ("blind" in body && body.blind)),
    declared: !declared.exploratory,
    treatedSeparately: isTreatmentRecorded(record, treatments) ? "recorded" : "assumed",
  };
}

const isReadByPhoto = (body: Reading["body"]): boolean =>
  body.kind === "finish colour" ||
  (body.kind === "look" && body.how === "photo") ||
  (body.kind === "tape test" && body.details?.counts === "photo");
