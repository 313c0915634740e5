/** `plan --simulate`: what this very plan would show of each question it asks, if one finish is better and if all are. */
import { assumptionWords, chanceSentence, looksCostSentence, wantedChance } from "../core/trial/chance-words.ts";
import { type DeclaredQuestion, marginKind, responseName } from "../core/trial/declared-question.ts";
import type { DrawablePlan } from "../core/trial/draw-plan.ts";
import { familyWords } from "../core/trial/family-words.ts";
import { differenceToFind } from "../core/trial/offered-margins.ts";
import { orderWords } from "../core/trial/order-trend.ts";
import type { BetterOnes, PlanAssumptions } from "../core/trial/plan-assumptions.ts";
import { readCoupons } from "../core/trial/read-coupons.ts";
import { simulatedPlan, simulatedTruths } from "../core/trial/simulated-plan.ts";
import type { SimulatedChances } from "../core/trial/simulation-tally.ts";
import { smallestFactor } from "../core/trial/smallest-size.ts";
import { WrongUsage } from "./exit.ts";
import { guessName } from "./guess-option.ts";
import type { Simulate } from "./simulate.ts";

export type QuestionSimulation = {
  response: string;
  family: DeclaredQuestion["family"];
  /** A declared order; null: comparisons. */
  order: string[] | null;
  size: number;
  assumed: PlanAssumptions;
  rows: {
    better: BetterOnes;
    chances: SimulatedChances;
    /** The smallest factor that is shown in 8 trials of 10; null: none up to 20, or not a factor. */
    smallestFactor: number | null;
    sentence: string;
  }[];
  sentences: string[];
};

/** A question that cannot be simulated, and what has to be said first. */
export type NotSimulated = { response: string; why: string };
export type PlanSimulation = { questions: QuestionSimulation[]; notSimulated: NotSimulated[] };

/** null: not said for this question. */
export type Expected = {
  difference: (declared: DeclaredQuestion) => number | null;
  assumed: (declared: DeclaredQuestion) => PlanAssumptions | null;
};

/** Every question of the plan for which it was said what the control is expected to do. */
export async function simulatePlan(
  draft: DrawablePlan,
  { difference, assumed }: Expected,
  simulate: Simulate,
): Promise<PlanSimulation> {
  const found: PlanSimulation = { questions: [], notSimulated: [] };
  for (const declared of draft.questions) {
    const response = responseName(declared);
    const taken = assumed(declared);
    const size = difference(declared) ?? differenceToFind(declared);
    const named = { title: `${response}, ${familyWords(declared)}`, typed: guessName(declared, draft.questions) };
    if (taken === null) found.notSimulated.push({ response, why: missing.control(named, declared) });
    else if (size === null) found.notSimulated.push({ response, why: missing.difference(named) });
    else found.questions.push(await simulatedQuestion(draft, declared, { size, assumed: taken }, simulate));
  }
  const [first] = found.notSimulated;
  if (found.questions.length === 0) throw new WrongUsage(first?.why ?? "The draft asks no question to simulate.");
  return found;
}

type Named = { title: string; typed: string };

const missing = {
  control: ({ title, typed }: Named, { order }: DeclaredQuestion) =>
    `${title}: not simulated; say with --control "${typed}=NUMBER" what half of ${order?.[0] ?? "the control"} is expected to reach.`,
  difference: ({ title, typed }: Named) =>
    `${title}: not simulated; say with --difference "${typed}=NUMBER" how large a difference is to be found.`,
};

async function simulatedQuestion(
  draft: DrawablePlan,
  declared: DeclaredQuestion,
  { size, assumed }: { size: number; assumed: PlanAssumptions },
  simulate: Simulate,
): Promise<QuestionSimulation> {
  const counts = readCoupons(draft, declared);
  const finishes = counts.length - 1;
  const asked = { response: declared, size, each: Math.min(...counts), finishes };
  const rows: QuestionSimulation["rows"] = [];
  for (const better of simulatedTruths(declared, finishes)) {
    const at = (factor: number) => simulatedPlan(draft, declared, { better, size: factor, assumed });
    const what = `${responseName(declared)}, ${truthWords(declared, better)}`;
    const chances = await simulate(at(size), what);
    const found =
      marginKind(declared) === "factor"
        ? await smallestFactor(
            async (factor) => (await simulate(at(factor), `${what}, factor ${factor.toFixed(2)}`)).each?.share ?? 0,
            wantedChance,
          )
        : null;
    rows.push({ better, chances, smallestFactor: found, sentence: chanceSentence({ ...asked, better }, chances) });
  }
  const dear =
    declared.response === "time to first rust"
      ? await looksCost(draft, declared, { size, assumed }, simulate, rows[0]?.chances)
      : null;
  return {
    response: responseName(declared),
    family: declared.family,
    order: declared.order ?? null,
    size,
    assumed,
    rows,
    sentences: [
      ...rows.flatMap((row) => [row.sentence, ...factorSentence(row, declared)]),
      ...(dear === null ? [] : [dear]),
      assumptionWords(declared, assumed, draft.blocks > 1),
    ],
  };
}

function truthWords({ order }: DeclaredQuestion, better: BetterOnes): string {
  if (order !== undefined) return `along ${orderWords(order)}`;
  return { one: "if one is better", all: "if all are better" }[better];
}

function factorSentence(
  { smallestFactor: factor, better }: QuestionSimulation["rows"][number],
  declared: DeclaredQuestion,
) {
  if (marginKind(declared) !== "factor") return [];
  const found = factor === null ? "no factor up to 20" : `a factor of ${factor.toPrecision(2)}`;
  return [`Shown in 8 trials of 10 ${truthWords(declared, better)}: ${found}.`];
}

async function looksCost(
  draft: DrawablePlan,
  declared: DeclaredQuestion,
  { size, assumed }: { size: number; assumed: PlanAssumptions },
  simulate: Simulate,
  planned: SimulatedChances | undefined,
): Promise<string | null> {
  const lookDays = Array.from({ length: Math.ceil(Math.max(...draft.lookDays)) }, (_, at) => at + 1);
  const trial = simulatedPlan({ ...draft, lookDays }, declared, { better: "one", size, assumed });
  const daily = await simulate(trial, "with daily looks");
  return planned ? looksCostSentence(planned, daily) : null;
}
