/** What a plan can show and what it cannot, by its layout alone: said before anything is coated. */
import {
  type ErrorDf,
  errorDfFor,
  type Family,
  familyAgainstControl,
  familyOfPairs,
  hopelessByLayout,
  largestTellingP,
  pairUnits,
  smallestLayoutP,
} from "./comparable-treatments.ts";
import { type DeclaredQuestion, responseName } from "./declared-question.ts";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { fittedModels } from "./fitted-models.ts";
import { type ExpectedMedians, lookWarnings, offeredLookDays } from "./look-calendar.ts";
import { orderOutlook } from "./order-outlook.ts";
import { type LayoutOfPair, layoutAdvice } from "./plan-advice.ts";
import { plannedQuestion } from "./planned-question.ts";
import type { Question } from "./question.ts";
import type { Plan } from "./trial-record.ts";
import { unitWords } from "./unit-words.ts";
import { type TrialLayout, trialLayout } from "./units-of-replication.ts";

export type ComparisonOutlook = LayoutOfPair & {
  /** "6 units: six single dips" for each of the two. */
  unitSentences: [string, string];
  /** The best verdict that the layout leaves open. */
  atBest: "shown" | "suggested" | "cannot be told";
  /** Caps that are certain already, as reasons. */
  caps: string[];
  sentence: string;
};
export type QuestionOutlook = {
  /** What the answers will call it. */
  response: string;
  family: "control" | "pairs";
  comparisons: ComparisonOutlook[];
  /** Of a declared order, which is asked in place of the comparisons. */
  order?: { treatments: string[]; sentence: string; atBest: ComparisonOutlook["atBest"] };
  /** Treatments that the layout takes out of the family before a response is read. */
  takenOut: string[];
};
export type PlanOutlook = {
  questions: QuestionOutlook[];
  proposals: string[];
  lookWarnings: string[];
  offeredLookDays: number[];
  notes: string[];
};

/** Units, smallest p and caps for every declared question; `expected` medians in days, when the user has a former trial. */
export function planOutlook(draft: DrawablePlan, expected: ExpectedMedians | null = null): PlanOutlook {
  const plan = drawPlan(draft);
  const questions = draft.questions.map((declared) => questionOutlook(plan, declared));
  const all = questions.flatMap((one) => one.comparisons);
  const timed = draft.questions.some((declared) => declared.response === "time to first rust");
  return {
    questions,
    proposals: layoutAdvice(draft, all),
    lookWarnings: timed ? lookWarnings(draft.lookDays, expected) : [],
    offeredLookDays: offeredLookDays(Math.max(...draft.lookDays, expected?.bestDays ?? 0)),
    notes: notesOf(questions),
  };
}

function questionOutlook(plan: Plan, declared: DeclaredQuestion): QuestionOutlook {
  const question = plannedQuestion(plan, declared);
  if (declared.order !== undefined) {
    const order = { treatments: declared.order, ...orderOutlook(question, declared.order) };
    return { response: responseName(declared), family: declared.family, comparisons: [], takenOut: [], order };
  }
  const layout = trialLayout(question);
  const value = question.kind === "continuous" ? fittedModels(question, layout).family.value : null;
  const errorDf: ErrorDf | null = value && ((first, second) => value(first, second).errorDf);
  const { members, takenOut } = familyOf(question, layout, errorDf);
  const comparisons = pairsOf(question).map(([first, second]) =>
    comparisonOutlook({ plan, question, layout, first, second, errorDf: errorDf?.(first, second) ?? null }),
  );
  return {
    response: responseName(declared),
    family: declared.family,
    comparisons,
    takenOut: members.length === 0 && takenOut.length === question.treatments.length ? question.treatments : takenOut,
  };
}

function familyOf(question: Question, layout: TrialLayout, errorDf: ErrorDf | null): Family {
  const hopeless = hopelessByLayout(question, layout, errorDf);
  return question.family === "control" && question.control !== null
    ? familyAgainstControl(question.treatments, question.control, hopeless)
    : familyOfPairs(question.treatments, hopeless);
}

function pairsOf({ treatments, family, control }: Question): [string, string][] {
  if (family === "control" && control !== null)
    return treatments.filter((one) => one !== control).map((one) => [one, control]);
  return treatments.flatMap((first, at) => treatments.slice(at + 1).map((second): [string, string] => [first, second]));
}

type Pair = {
  plan: Plan;
  question: Question;
  layout: TrialLayout;
  first: string;
  second: string;
  /** Of the scatter that will judge measured values; null: the exact tests decide. */
  errorDf: number | null;
};

function comparisonOutlook(pair: Pair): ComparisonOutlook {
  const { plan, question, layout, first, second, errorDf } = pair;
  const units = pairUnits(question, layout, first, second);
  const batch = layout.pair(first, second).batch;
  const blocks = [...new Set(units.flat().map((unit) => unit.block))];
  const perBlock = blocks.map((block): [number, number] => {
    const [one, other] = units.map((own) => own.filter((unit) => unit.block === block).length);
    return [one ?? 0, other ?? 0];
  });
  const n: [number, number] = [units[0].length, units[1].length];
  const layoutOfPair: LayoutOfPair = {
    first,
    second,
    n,
    pMin: Math.min(...n) <= 1 ? 1 : smallestLayoutP(question, units),
    errorDf,
    perBlock,
    sameRoute: sameSteps(plan, first, second),
    oneBatch: batch?.case === "one against none" ? batch.treatment : null,
    eachOneBatch: batch?.case === "each has one",
  };
  const { atBest, caps } = capsOf(layoutOfPair);
  const unitSentences: [string, string] = [
    unitWords(plan, { treatment: first, partner: second, units: units[0] }),
    unitWords(plan, { treatment: second, partner: first, units: units[1] }),
  ];
  return { ...layoutOfPair, unitSentences, atBest, caps, sentence: sentenceOf(layoutOfPair, atBest, caps) };
}

function sameSteps({ treatments }: Plan, first: string, second: string): boolean {
  const names = (treatment: string) =>
    (treatments.find((one) => one.name === treatment)?.route ?? []).map((step) => step.name).sort();
  return JSON.stringify(names(first)) === JSON.stringify(names(second));
}

/** The level of a question, at or below which a comparison can be "shown". */
const level = 0.05;

function capsOf({
  first,
  n,
  pMin,
  second,
  errorDf,
  oneBatch,
  eachOneBatch,
  sameRoute,
}: LayoutOfPair): Pick<ComparisonOutlook, "atBest" | "caps"> {
  const nothing: string[] = [];
  if (sameRoute) nothing.push(`"${first}" and "${second}" go through the same steps: there is no difference to find`);
  else if (eachOneBatch)
    nothing.push("each of the two was treated in one go: the goes could differ as much as the treatments");
  else if (Math.min(...n) <= 1) nothing.push("one unit is no repetition");
  else if (errorDf !== null && errorDf < errorDfFor.anything) nothing.push(dfWords(errorDf));
  else if (errorDf === null && pMin > largestTellingP)
    nothing.push(`even the clearest result would come by chance once in ${Math.round(1 / pMin)} trials`);
  if (nothing.length > 0) return { atBest: "cannot be told", caps: nothing };
  const caps = [
    ...(Math.min(...n) === 2 ? ["two units on one side"] : []),
    ...(errorDf !== null && errorDf < errorDfFor.shown ? [dfWords(errorDf)] : []),
    ...(errorDf === null && pMin > level
      ? [`even the clearest result would come by chance once in ${Math.round(1 / pMin)} trials`]
      : []),
    ...(oneBatch !== null ? [`every "${oneBatch}" goes through one batch: it speaks for this one batch only`] : []),
  ];
  return { atBest: caps.length > 0 ? "suggested" : "shown", caps };
}

const dfWords = (errorDf: number): string =>
  `the scatter would be known from only ${errorDf} ${errorDf === 1 ? "degree" : "degrees"} of freedom`;

function sentenceOf(
  { first, second }: LayoutOfPair,
  atBest: ComparisonOutlook["atBest"],
  caps: readonly string[],
): string {
  const pair = `"${first}" against "${second}"`;
  if (atBest === "cannot be told") return `About ${pair} nothing can be told: ${caps.join("; ")}.`;
  if (atBest === "suggested") return `${pair} can be suggested at best, not shown: ${caps.join("; ")}.`;
  return `${pair} can be shown, if the difference is large enough.`;
}

function notesOf(questions: readonly QuestionOutlook[]): string[] {
  const taken = [...new Set(questions.flatMap((one) => one.takenOut))];
  return [
    ...(taken.length > 0
      ? [
          `Taken out of the family by the layout, before anything is read: ${taken.map((name) => `"${name}"`).join(", ")}.`,
        ]
      : []),
    ...(questions.length > 1
      ? [
          `${questions.length} questions have their own 5 % each: the chance of some false "shown" is at most ${5 * questions.length} %.`,
        ]
      : []),
  ];
}
