/** `plan --simulate`: what this very plan would show, if one finish is better and if all are. */
import { assumptionWords, chanceSentence, looksCostSentence, wantedChance } from "../core/trial/chance-words.ts";
import { type DeclaredQuestion, marginKind, responseName } from "../core/trial/declared-question.ts";
import type { DrawablePlan } from "../core/trial/draw-plan.ts";
import { differenceToFind } from "../core/trial/offered-margins.ts";
import { type BetterOnes, betterOnes, type PlanAssumptions, simulatedPlan } from "../core/trial/simulated-plan.ts";
import type { SimulatedChances } from "../core/trial/simulation-tally.ts";
import { smallestFactor } from "../core/trial/smallest-size.ts";
import { WrongUsage } from "./exit.ts";
import type { Simulate } from "./simulate.ts";

export type PlanSimulation = {
  response: string;
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

/** The plan's first question, at `difference` or else its margin. */
export async function simulatePlan(
  draft: DrawablePlan,
  { difference, assumed }: { difference: number | undefined; assumed: PlanAssumptions },
  simulate: Simulate,
): Promise<PlanSimulation> {
  const declared = draft.questions[0];
  if (!declared) throw new WrongUsage("The draft asks no question to simulate.");
  const size = difference ?? differenceToFind(declared);
  if (size === null) throw new WrongUsage("Say with --difference how large a difference is to be found.");
  const counts = draft.treatments.filter((one) => one.role !== "witness").map((one) => one.coupons);
  const finishes = counts.length - 1;
  const asked = { response: declared, size, each: Math.min(...counts), finishes };
  const rows: PlanSimulation["rows"] = [];
  for (const better of finishes > 1 ? betterOnes : (["one"] as const)) {
    const at = (factor: number) => simulatedPlan(draft, declared, { better, size: factor, assumed });
    const chances = await simulate(at(size), betterWords[better]);
    const found =
      marginKind(declared) === "factor"
        ? await smallestFactor(
            async (factor) =>
              (await simulate(at(factor), `${betterWords[better]}, factor ${factor.toFixed(2)}`)).each?.share ?? 0,
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

const betterWords = { one: "if one is better", all: "if all are better" } as const;

function factorSentence(
  { smallestFactor: factor, better }: PlanSimulation["rows"][number],
  declared: DeclaredQuestion,
) {
  if (marginKind(declared) !== "factor") return [];
  const found = factor === null ? "no factor up to 20" : `a factor of ${factor.toPrecision(2)}`;
  return [`Shown in 8 trials of 10 ${betterWords[better]}: ${found}.`];
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
