/**
 * The chance to show a difference, by this program's own simulation, beside the tables of the analysis plan: six treatments by number of
 * coupons, factor and how many are better; one better among two, three and six; and what the calendar of looks costs.
 *
 *   npx rolldown bench/power.ts --platform node --file power.mjs
 *   node power.mjs [--trials 400] [--only six|one|looks]
 *
 * Prints Markdown: own percent (error), then the percent of the plan. The plan's rows have no losses, no block effect, weekly looks for
 * twelve weeks and a control scale of 30 days (median 25).
 */
import { parseArgs } from "node:util";
import type { DrawablePlan } from "../src/core/trial/draw-plan.ts";
import { type BetterOnes, planAssumptions } from "../src/core/trial/plan-assumptions.ts";
import { simulatedPlan } from "../src/core/trial/simulated-plan.ts";
import type { SimulatedTrial } from "../src/core/trial/simulated-trial.ts";
import { type SimulatedShare, simulatedChances, talliedTrials } from "../src/core/trial/simulation-tally.ts";

const { values: options } = parseArgs({
  options: { trials: { type: "string", default: "400" }, only: { type: "string", default: "" } },
});
const trials = Number(options.trials);
const weekly = Array.from({ length: 12 }, (_, at) => 7 * (at + 1));

type Plan = { treatments: number; n: number; looks: number[]; medianDays: number };

function planned({ treatments, n, looks, medianDays }: Plan, better: BetterOnes, factor: number): SimulatedTrial {
  const draft: DrawablePlan = {
    question: "",
    questions: [{ response: "time to first rust", family: "control", margin: null, atDay: null }],
    treatments: Array.from({ length: treatments }, (_, at) => ({
      name: at === 0 ? "control" : `finish ${at}`,
      role: at === 0 ? "control" : "finish",
      coupons: n,
      route: [{ name: `step ${at}`, treated: "alone" }],
    })),
    couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
    edgeBandMm: 5,
    rustThresholdPercent: 0.01,
    lookDays: looks,
    blocks: 1,
    rackColumns: 12,
    sparesOfEach: 0,
    seed: 1,
  };
  const assumed = { ...planAssumptions(medianDays), lostShare: 0 };
  return simulatedPlan(draft, draft.questions[0]!, { better, size: factor, assumed });
}

/** The first three finishes better, the others like the control: a row of the plan that a plan page does not ask for. */
function threeBetter(plan: Plan, factor: number): SimulatedTrial {
  const trial = planned(plan, "all", factor);
  const [centres] = trial.centres;
  const like = centres!.control!;
  return { ...trial, centres: [{ ...centres, "finish 4": like, "finish 5": like }] };
}

const percent = ({ share, error }: SimulatedShare) => `${Math.round(100 * share)} ± ${(100 * error).toFixed(1)}`;
const chances = (trial: SimulatedTrial, count: number) =>
  simulatedChances(talliedTrials(trial, { from: 0, to: count }));

const scale30 = 30 * Math.LN2 ** (1 / 2);
const six = { treatments: 6, looks: weekly, medianDays: scale30 };

function tableOfSix(): void {
  const stated: Record<string, string> = {
    "6 2 one": "38",
    "6 2 three": "16 (5)",
    "6 2 all": "9 (0)",
    "6 3 one": "76",
    "6 3 three": "59 (42)",
    "6 3 all": "46 (21)",
    "8 2 one": "55",
    "8 2 three": "35 (19)",
    "8 2 all": "20 (6)",
    "8 3 one": "91",
    "8 3 three": "87 (78)",
    "8 3 all": "79 (61)",
    "12 2 one": "80",
    "12 2 three": "68 (53)",
    "12 2 all": "54 (34)",
    "12 3 one": "99",
    "12 3 three": "99 (97)",
    "12 3 all": "99 (98)",
  };
  console.log("| n | factor | better | each, here | all, here | plan: each (all) |\n|---|---|---|---|---|---|");
  for (const n of [6, 8, 12])
    for (const factor of [2, 3])
      for (const better of ["one", "three", "all"] as const) {
        const plan = { ...six, n };
        const found = chances(better === "three" ? threeBetter(plan, factor) : planned(plan, better, factor), trials);
        console.log(
          `| ${n} | ${factor} | ${better} | ${percent(found.each!)} | ${percent(found.all!)} | ${stated[`${n} ${factor} ${better}`]} |`,
        );
      }
}

function tableOfOne(): void {
  const stated: Record<string, number[][]> = {
    2: [
      [4, 12, 17, 24, 42],
      [12, 34, 44, 67, 81],
      [28, 53, 69, 86, 97],
      [42, 68, 82, 94, 100],
      [59, 81, 96, 98, 100],
      [75, 94, 99, 100, 100],
    ],
    3: [
      [4, 9, 17, 23, 37],
      [13, 30, 42, 58, 80],
      [24, 49, 65, 84, 97],
      [43, 64, 78, 94, 99],
      [61, 82, 94, 99, 100],
      [77, 94, 98, 100, 100],
    ],
    6: [
      [3, 6, 12, 16, 30],
      [14, 26, 40, 54, 81],
      [24, 44, 61, 78, 95],
      [38, 62, 77, 93, 100],
      [55, 80, 92, 98, 100],
      [77, 94, 98, 100, 100],
    ],
  };
  console.log("| treatments | factor | n 4 | n 5 | n 6 | n 8 | n 12 | plan |\n|---|---|---|---|---|---|---|---|");
  for (const treatments of [2, 3, 6])
    for (const [at, factor] of [1.5, 2, 2.5, 3, 4, 6].entries()) {
      const own = [4, 5, 6, 8, 12].map((n) =>
        percent(chances(planned({ ...six, treatments, n }, "one", factor), trials).each!),
      );
      console.log(`| ${treatments} | ${factor} | ${own.join(" | ")} | ${stated[treatments]![at]!.join(" ")} |`);
    }
}

function tableOfLooks(): void {
  const calendars = {
    weekly,
    dense: [1, 2, 4, 7, 10, 14, 21, 28, 35, 42, 49, 56, 63, 70, 77, 84],
    daily: Array.from({ length: 84 }, (_, at) => at + 1),
  };
  const stated: Record<number, string> = {
    25: "80 / 80 / 82",
    10: "76 / 79 / 82",
    3: "32 / 76 / 81",
    1: "0 / 68 / 72",
  };
  console.log("| control median, days | weekly | dense | daily | plan |\n|---|---|---|---|---|");
  for (const medianDays of [25, 10, 3, 1]) {
    const own = Object.values(calendars).map((looks) =>
      percent(chances(planned({ treatments: 2, n: 6, looks, medianDays }, "one", 3), trials).each!),
    );
    console.log(`| ${medianDays} | ${own.join(" | ")} | ${stated[medianDays]} |`);
  }
}

const tables = { looks: tableOfLooks, one: tableOfOne, six: tableOfSix };
for (const [name, print] of Object.entries(tables)) {
  if (!name.includes(options.only)) continue;
  print();
  console.log();
}
