/** A plan as it would be simulated: its own layout, looks and family, with finishes that are better by a stated size. */
import { InputError, requirePositive } from "../input-error.ts";
import { assumedScatter } from "./assumed-scatter.ts";
import type { DeclaredQuestion } from "./declared-question.ts";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { type BetterOnes, betterOnes, type PlanAssumptions } from "./plan-assumptions.ts";
import { plannedQuestion } from "./planned-question.ts";
import type { Question } from "./question.ts";
import { comparesRatios } from "./scaled-margin.ts";
import type { SimulatedTrial, Spread } from "./simulated-trial.ts";
import { isWearUnit } from "./wear-conditions.ts";

/** The same for every number of coupons and every size, so that curves do not cross by chance. */
export const simulationSeed = 1;

/** The truths a question is simulated for: a declared order has one, its even rise; so has a single finish. */
export function simulatedTruths({ order }: Pick<DeclaredQuestion, "order">, finishes: number): readonly BetterOnes[] {
  return order === undefined && finishes > 1 ? betterOnes : ["one"];
}

/**
 * `size`: a factor above 1 for times, strokes, areas and ratios, classes for classes, else in the response's unit. "one": each finish in turn is the better one, so that finishes with
 * fewer coupons count too; "all": every finish beats the control, or without one, every treatment the first. Of a
 * declared order: from its first to its last, in equal steps.
 */
export function simulatedPlan(
  draft: DrawablePlan,
  declared: DeclaredQuestion,
  { better, size, assumed }: { better: BetterOnes; size: number; assumed: PlanAssumptions },
): SimulatedTrial {
  const question = plannedQuestion(drawPlan(draft), declared);
  requireAssumptions(question, assumed, size);
  const spread = spreadOf(question, assumed, draft.lookDays);
  const rest = scatterScale(question, assumed);
  return {
    question,
    spread,
    centres: centresFor(question, better, { start: startOf(question, assumed.control), step: stepOf(question, size) }),
    blockSd: assumed.blockLogSd * rest,
    batchSd: assumed.batchLogSd * rest,
    lostShare: assumed.lostShare,
    seed: simulationSeed,
  };
}

function requireAssumptions(question: Question, assumed: PlanAssumptions, size: number): void {
  if (comparesRatios(question)) requirePositive("control", assumed.control);
  if (question.kind === "binary" && !(assumed.control > 0 && assumed.control < 1))
    throw new InputError("control", assumed.control, "a share between 0 and 1");
  requirePositive("size", size);
  if (comparesRatios(question) && size <= 1) throw new InputError("size", size, "a factor above 1");
  for (const name of ["shape", "strokesLogSd", "areaLog10Sd", "classSd", "coefficientOfVariation"] as const)
    requirePositive(name, assumed[name]);
  if (assumed.colourSd !== undefined) requirePositive("colourSd", assumed.colourSd);
  for (const name of ["blockLogSd", "batchLogSd"] as const)
    if (!(assumed[name] >= 0)) throw new InputError(name, assumed[name], "0 or more");
  if (!(assumed.lostShare >= 0 && assumed.lostShare < 1))
    throw new InputError("lostShare", assumed.lostShare, "a share from 0 to below 1");
}

/** A wear test stops to look at every tenth of the strokes that the control stands up to, ten times as long at most. */
const strokeChecks = { ofControl: 0.1, most: 100 } as const;

function spreadOf(question: Question, assumed: PlanAssumptions, lookDays: readonly number[]): Spread {
  switch (question.kind) {
    case "time": {
      if (isWearUnit(question.unit)) {
        const step = strokeChecks.ofControl * assumed.control;
        const looks = Array.from({ length: strokeChecks.most }, (_, at) => step * (at + 1));
        return { of: "time", law: { name: "lognormal", logSd: assumed.strokesLogSd }, looks };
      }
      const looks = [...new Set(lookDays)].filter((day) => day > 0).sort((a, b) => a - b);
      if (looks.length === 0) throw new InputError("lookDays", lookDays, "at least one look after day 0");
      return { of: "time", law: { name: "Weibull", shape: assumed.shape }, looks };
    }
    case "area":
      return { of: "area", log10Sd: assumed.areaLog10Sd };
    case "ordinal":
      return { of: "class", sd: assumed.classSd };
    case "continuous":
      return { of: "value", sd: valueSd(question, assumed) };
    case "binary":
      return { of: "share" };
  }
}

function valueSd({ ratio }: Question, { coefficientOfVariation, colourSd, control }: PlanAssumptions): number {
  return ratio ? coefficientOfVariation : (colourSd ?? coefficientOfVariation * Math.abs(control));
}

/** SD of ln T of the assumed Weibull times, pi / (sqrt(6) shape): the measure for what blocks and batches add elsewhere. */
const assumedTimeLogSd = Math.PI / Math.sqrt(6) / assumedScatter.shape;

/** From a log SD to the scale of the centres; shares know no blocks. */
function scatterScale(question: Question, assumed: PlanAssumptions): number {
  switch (question.kind) {
    case "time":
      return 1;
    case "area":
      return 1 / Math.LN10;
    case "ordinal":
      return assumed.classSd / assumedTimeLogSd;
    case "continuous":
      return valueSd(question, assumed) / assumedTimeLogSd;
    case "binary":
      return 0;
  }
}

function startOf({ kind, ratio }: Question, control: number): number {
  if (kind === "area") return Math.log10(control);
  return kind === "time" || (kind === "continuous" && ratio) ? Math.log(control) : control;
}

/** From the control's centre to a better one's. */
function stepOf({ kind, ratio, better }: Question, size: number): number {
  const towards = better === "higher" ? 1 : -1;
  if (kind === "area") return towards * Math.log10(size);
  return towards * (kind === "time" || (kind === "continuous" && ratio) ? Math.log(size) : size);
}

function centresFor(
  { treatments, control, order }: Question,
  better: BetterOnes,
  { start, step }: { start: number; step: number },
): SimulatedTrial["centres"] {
  if (order !== undefined) {
    const steps = (name: string) => Math.max(0, order.indexOf(name)) / (order.length - 1);
    return [Object.fromEntries(treatments.map((name) => [name, start + step * steps(name)]))];
  }
  const worst = control ?? treatments[0];
  const finishes = treatments.filter((one) => one !== worst);
  const centres = (isBetter: (name: string) => boolean) =>
    Object.fromEntries(treatments.map((name) => [name, start + (isBetter(name) ? step : 0)]));
  if (better === "all") return [centres((name) => name !== worst)];
  return (control === null ? treatments : finishes).map((one) => centres((name) => name === one));
}
