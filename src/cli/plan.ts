/** `plan`: what a draft can show, and the lot that was drawn for it. */
import { readFileSync, statSync } from "node:fs";
import { Command } from "commander";
import { type PlanDraft, planDraft } from "../api/plan.ts";
import { refusedFields } from "../api/refused-fields.ts";
import { InputError } from "../core/input-error.ts";
import { printedTrials } from "../core/trial/chance-curve.ts";
import type { DeclaredQuestion } from "../core/trial/declared-question.ts";
import { drawPlan } from "../core/trial/draw-plan.ts";
import { familyWords } from "../core/trial/family-words.ts";
import { planAssumptions } from "../core/trial/plan-assumptions.ts";
import { type PlanOutlook, planOutlook } from "../core/trial/plan-outlook.ts";
import { requirePlan } from "../core/trial/plan-rules.ts";
import { type TakenScatter, takenScatter } from "../core/trial/taken-scatter.ts";
import { type Plan, trialRecord } from "../core/trial/trial-record.ts";
import { InputRefused, WrongUsage } from "./exit.ts";
import { type Guess, guessFor, guessOption } from "./guess-option.ts";
import { shopFolder } from "./shop-folder.ts";
import { withTrial } from "./shop-trial.ts";
import { withSimulation } from "./simulate.ts";
import { type PlanSimulation, simulatePlan } from "./simulate-plan.ts";
import { numberOption } from "./table-options.ts";

type PlanOptions = {
  controlMedian?: number;
  bestMedian?: number;
  simulate?: true;
  trials: number;
  control?: Guess[];
  difference?: Guess[];
  shape?: number;
  scatterFrom?: string;
  shop: string;
  json?: true;
};

export function planCommand(): Command {
  return new Command("plan")
    .description("say what a draft can and cannot show, and draw lots for its coupons")
    .argument("<file>", "JSON of a draft: treatments with their routes, coupons, blocks, days of looks, seed")
    .option("--control-median <days>", "when half of the control is expected to have rusted", numberOption)
    .option("--best-median <days>", "when half of the best treatment is expected to have rusted", numberOption)
    .option("--simulate", "carry the plan out in invented trials and say how often a difference is shown")
    .option("--trials <number>", "how many invented trials for each answer", numberOption, printedTrials)
    .option(
      "--control <number>",
      'what half of the control, or of the first in an order, is expected to reach, for the first question: days (as --control-median), %, class; for another "rusted area=5", or "question 2=5"',
      guessOption,
    )
    .option(
      "--difference <number>",
      'how large a difference is to be found, for the first question (else the margin); for another "rusted area=3"',
      guessOption,
    )
    .option("--scatter-from <trial>", "take the scatter, and what the control reached, from a former trial of the shop")
    .option("--shop <dir>", "the shop's folder", shopFolder())
    .option("--shape <number>", "Weibull shape of the times (else 2)", numberOption)
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", "\nExample:\n  coatwright plan shed-draft.json --simulate --control 10")
    .action(async (path: string, options: PlanOptions) => {
      const draft = readDraft(path);
      const plan = drawPlan(draft);
      requirePlan(plan);
      const outlook = planOutlook(draft, expectedMedians(options));
      const simulation = options.simulate ? await simulated(draft, options) : null;
      const form = { outlook, plan, ...(simulation === null ? {} : { simulation }) };
      console.log(options.json ? JSON.stringify(form, null, 2) : planText(outlook, plan, simulation));
    });
}

function expectedMedians({ controlMedian, bestMedian, simulate }: PlanOptions) {
  if (bestMedian === undefined && (controlMedian === undefined || simulate)) return null;
  if (controlMedian === undefined || bestMedian === undefined)
    throw new WrongUsage("--control-median and --best-median go together");
  return { controlDays: controlMedian, bestDays: bestMedian };
}

async function simulated(draft: PlanDraft, options: PlanOptions): Promise<PlanSimulation> {
  const { shape, trials, controlMedian } = options;
  const said = guessFor(options.control ?? [], draft.questions);
  const lent = await lentScatter(draft, options);
  const control = (declared: DeclaredQuestion) =>
    said(declared) ??
    (speaksOfControl(draft, declared) ? controlMedian : undefined) ??
    lent.get(declared)?.control ??
    null;
  if (draft.questions.every((declared) => control(declared) === null))
    throw new WrongUsage(
      "--simulate needs --control: what half of the control is expected to reach, in days, %, class",
    );
  const assumed = (declared: DeclaredQuestion) => {
    const expected = control(declared);
    return expected === null
      ? null
      : {
          ...planAssumptions(expected, declared),
          ...lent.get(declared)?.scatter,
          ...(shape === undefined ? {} : { shape }),
        };
  };
  const difference = guessFor(options.difference ?? [], draft.questions);
  return withSimulation(trials, (simulate) => simulatePlan(draft, { difference, assumed }, simulate));
}

/** What a former trial says of each question; of one that it did not answer, why, on standard error. */
async function lentScatter(
  { questions }: PlanDraft,
  { scatterFrom, shop }: PlanOptions,
): Promise<Map<DeclaredQuestion, TakenScatter>> {
  const lent = new Map<DeclaredQuestion, TakenScatter>();
  if (scatterFrom === undefined) return lent;
  await withTrial(shop, scatterFrom, async (_store, { id, name, observations }) => {
    const record = trialRecord({ id, name }, observations);
    for (const declared of questions) {
      try {
        const taken = takenScatter(record, declared);
        lent.set(declared, taken);
        console.error(taken.words);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        console.error(error.message);
      }
    }
  });
  return lent;
}

/** Whether days by which half of the control has rusted say where this question's lowest treatment stands. */
function speaksOfControl({ treatments }: PlanDraft, { response, order }: DeclaredQuestion): boolean {
  const control = treatments.find((one) => one.role === "control")?.name;
  return response === "time to first rust" && (order === undefined || order[0] === control);
}

function readDraft(path: string): PlanDraft {
  if (!statSync(path, { throwIfNoEntry: false })?.isFile())
    throw new InputRefused(`${path} is not there; expected a JSON file of a draft`);
  const value = jsonOf(path);
  const parsed = planDraft.safeParse(value);
  if (parsed.success) return parsed.data;
  const lines = refusedFields(parsed.error.issues, value).map(({ detail }) => `  ${detail}`);
  throw new InputRefused(`${path} is not a draft:\n${lines.join("\n")}`);
}

function jsonOf(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, "utf8"));
  } catch (error) {
    throw new InputRefused(`${path} is not JSON: ${error instanceof Error ? error.message : String(error)}`);
  }
}

function planText(outlook: PlanOutlook, plan: Plan, simulation: PlanSimulation | null): string {
  const { questions, proposals, lookWarnings, notes } = outlook;
  const lines = questions.flatMap((question) => [
    `${question.response}, ${familyWords({ ...question, order: question.order?.treatments })}`,
    ...(question.order ? [`  ${question.order.sentence}`] : []),
    ...question.comparisons.flatMap(({ sentence, first, second, unitSentences }) => [
      `  ${sentence}`,
      `    ${first}: ${unitSentences[0]}`,
      `    ${second}: ${unitSentences[1]}`,
    ]),
  ]);
  const section = (title: string, all: readonly string[]) =>
    all.length > 0 ? ["", title, ...all.map((line) => `  ${line}`)] : [];
  return [
    ...lines,
    ...(simulation?.questions ?? []).flatMap(({ response, family, order, sentences }) =>
      section(`Simulated, ${response}, ${familyWords({ family, order: order ?? undefined })}:`, sentences),
    ),
    ...section("Not simulated:", simulation?.notSimulated.map((one) => one.why) ?? []),
    ...section("Better:", proposals),
    ...section("Looks:", lookWarnings),
    ...section("Notes:", notes),
    ...section("Coupons (number, block, row and column on the rack, treatment):", plan.places.map(placeLine)),
  ].join("\n");
}

function placeLine({ coupon, block, rack, treatment }: Plan["places"][number]): string {
  const where = rack ? `${rack.row}/${rack.column}` : "-";
  return [coupon.padStart(4), (block ?? "-").padStart(3), where.padStart(6), treatment].join("  ");
}
