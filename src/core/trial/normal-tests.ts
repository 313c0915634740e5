/**
 * p of every comparison of measured values: normal theory, adjusted by step-down Dunnett against the control or by Tukey and Kramer for
 * all pairs, never below the guard's p. The guard starts from the scatter of the pair alone: one noisy control would spoil all of its
 * comparisons at once. Its constants are this project's, set by simulation.
 */
import { InputError } from "../input-error.ts";
import { studentizedRangeSf } from "../numeric/studentized-range-distribution.ts";
import { tTwoSided } from "../numeric/t-distribution.ts";
import { brownForsythe, median } from "../statistics/brown-forsythe.ts";
import { dunnettTail } from "../statistics/dunnett-tail.ts";
import { mean } from "../statistics/moments.ts";
import { treatmentBlockFit } from "../statistics/treatment-block-fit.ts";
import { welchError } from "../statistics/welch-t.ts";
import { largestTellingP, pairUnits } from "./comparable-treatments.ts";
import { type ComparisonRow, type ComparisonRows, controlOf } from "./comparison-rows.ts";
import type { Tested, TestedRow } from "./exact-tests.ts";
import type { Fitted, FittedModels } from "./fitted-models.ts";
import type { Question } from "./question.ts";
import { type Drawing, setTest, smallestPairP } from "./rearranged-sets.ts";
import { unitValue } from "./unit-scores.ts";
import type { TrialLayout, Unit } from "./units-of-replication.ts";
import { pairT, placedValues, type ValueModel } from "./value-effect.ts";
import type { ValueModels } from "./value-models.ts";
import { reaches, verdictLevels } from "./verdict.ts";

/** `model`: the scatter that judges the pair. */
type OwnTest = {
  row: ComparisonRow;
  model: ValueModel;
  sizes: [number, number];
  t: number;
  p: number;
  guardP: number | null;
};

/** p of t, adjusted and guarded, for every comparison of the plan; over all treatments the exact test. */
export function normalTests(
  question: Question,
  layout: TrialLayout,
  { plan, fits }: { plan: ComparisonRows; fits: FittedModels },
  drawing: Drawing,
): Tested {
  const test = setTest(question, layout, drawing);
  const own = plan.rows.map((row) => ownTest(question, layout, fits[row.step], row));
  const adjusted = new Map([
    ...adjustedOf(question, own, plan, fits, "family"),
    ...adjustedOf(question, own, plan, fits, "second step"),
  ]);
  const rows = own.map(({ row, p, guardP, sizes, model }): TestedRow => {
    const exact = Math.min(...sizes) > 1 ? test([row.first, row.second], "pairs").p : 1;
    const exactSilent =
      reaches(smallestPairP(question, layout, row.first, row.second), largestTellingP) && exact > largestTellingP;
    const all = question.treatments.length;
    const exploratory =
      row.standing === "exploratory" ? Math.min(1, (Math.max(p, guardP ?? 0) * all * (all - 1)) / 2) : null;
    const pAdjusted = adjusted.get(row) ?? exploratory;
    const told = pAdjusted !== null && reaches(pAdjusted, verdictLevels.shown);
    return {
      ...row,
      p,
      pAdjusted,
      pAdjustedIsLowerBound: false,
      pMin: null,
      drawnFloor: null,
      method: methodOf(question, row, exact),
      doubts: told
        ? [
            ...(exactSilent ? ["the exact test of the pair does not bear it out"] : []),
            ...(guardP === null && unevenScatter(model)
              ? ["the treatments scatter unequally, and the pair has no test of its own"]
              : []),
          ]
        : [],
    };
  });
  const members = question.family === "control" ? [controlOf(question), ...plan.family.members] : plan.family.members;
  const overall = members.length < 2 ? null : test(members, "pairs");
  return {
    rows,
    overall: overall && {
      p: overall.p,
      method: `exact rearrangement test, largest difference of any two of ${members.length} treatments`,
    },
  };
}

/** The pair's t by the error of the trial, and the guard's by the two treatments alone. */
function ownTest(question: Question, layout: TrialLayout, fitted: Fitted, row: ComparisonRow): OwnTest {
  const [first, second] = pairUnits(question, layout, row.first, row.second);
  const model = valuesOf(fitted)(row.first, row.second);
  const tested = Math.min(first.length, second.length) > 0 ? pairT(model, row.first, row.second) : null;
  const sizes: [number, number] = [first.length, second.length];
  if (!tested) return { row, model, sizes, t: 0, p: 1, guardP: 1 };
  const alone = Math.min(...sizes) >= 2 && hasTestOfItsOwn(layout, fitted, row);
  return { row, model, sizes, ...tested, guardP: alone ? guardStart(question, [first, second]) : null };
}

function valuesOf({ value }: Fitted): ValueModels {
  if (value === null) throw new InputError("kind", null, "measured values");
  return value;
}

/** Not within the batches of a split plot, nor in blocks of which none holds every treatment. */
function hasTestOfItsOwn(layout: TrialLayout, { units }: Fitted, { first, second }: ComparisonRow): boolean {
  if (units.some(({ plot }) => plot !== "") && layout.withinBatches([first, second])) return false;
  const treatments = new Set(units.map((unit) => unit.treatment)).size;
  const blocks = [...new Set(units.map((unit) => unit.block))];
  return blocks.some(
    (block) => new Set(units.filter((unit) => unit.block === block).map((unit) => unit.treatment)).size === treatments,
  );
}

/** Welch's t, in blocks the t of treatment plus block; null where the pair has no degrees of freedom of its own. */
function guardStart(question: Question, [first, second]: [Unit[], Unit[]]): number | null {
  if (new Set([...first, ...second].map((unit) => unit.block)).size > 1) {
    const fit = treatmentBlockFit(placedValues(question, [...first, ...second]));
    const difference = fit.difference(first[0]!.treatment, second[0]!.treatment);
    if (fit.meanSquare === null || !difference) return null;
    return tOf(difference.value, fit.meanSquare * difference.variance, fit.errorDf);
  }
  const [one, other] = [first, second].map((units) => units.map((unit) => unitValue(question, unit)));
  const { squaredError, df } = welchError(one!, other!);
  return tOf(mean(one!) - mean(other!), squaredError, df);
}

/** null: no scatter in either, nothing to measure the difference by. */
function tOf(difference: number, squaredError: number, df: number): number | null {
  return squaredError > 0 ? Math.max(Number.MIN_VALUE, tTwoSided(difference / Math.sqrt(squaredError), df)) : null;
}

/** Unequal groups of which one is small, and two treatments alone, make the pair's own t too bold. */
const boldness = { unequal: { smallerBelow: 5, times: 1.3 }, two: { upTo: 8, times: 1.2 } } as const;
/** Power of the number of comparisons in the guard; the second from nine units of a treatment on. */
const guardExponents = { upTo: 8, small: 2 / 3, large: 4 / 5 } as const;

function guardP({ guardP, sizes }: OwnTest, treatments: number): number {
  const smaller = Math.min(...sizes);
  const unequal = sizes[0] !== sizes[1] && smaller < boldness.unequal.smallerBelow ? boldness.unequal.times : 1;
  const two = treatments === 2 && smaller <= boldness.two.upTo ? boldness.two.times : 1;
  return Math.min(1, (guardP ?? 0) * unequal * two);
}

function adjustedOf(
  question: Question,
  own: readonly OwnTest[],
  plan: ComparisonRows,
  fits: FittedModels,
  step: ComparisonRow["step"],
): [ComparisonRow, number][] {
  const inStep = own.filter(({ row }) => row.step === step && row.standing === "in");
  if (inStep.length === 0) return [];
  const family = step === "family" ? plan.family : plan.secondStep!;
  const againstControl = step === "family" && question.family === "control";
  const members = againstControl ? [...family.members, controlOf(question)] : family.members;
  const { units } = fits[step];
  const sizeOf = (treatment: string) => units.filter((unit) => unit.treatment === treatment).length;
  const largest = Math.max(...members.map(sizeOf));
  const exponent = largest <= guardExponents.upTo ? guardExponents.small : guardExponents.large;
  const starts = inStep.map((one) => guardP(one, question.treatments.length));
  const guarded = againstControl
    ? stepDownGuard(starts, exponent)
    : starts.map((p) => raised(p, (members.length - 1) ** exponent));
  const theory = againstControl
    ? stepDownDunnett(inStep, sizeOf)
    : inStep.map(({ t, model }) =>
        studentizedRangeSf(Math.abs(t) * Math.SQRT2, { groups: members.length, df: model.errorDf }),
      );
  return inStep.map(({ row, p }, at) => [row, Math.max(p, theory[at]!, guarded[at]!)]);
}

/** 1 - (1 - p)^times, without losing a small p. */
function raised(p: number, times: number): number {
  return -Math.expm1(times * Math.log1p(-p));
}

function stepDownGuard(starts: readonly number[], exponent: number): number[] {
  return steppedDown(
    starts.map((p) => -p),
    (at, remaining) => raised(starts[at]!, remaining.length ** exponent),
  );
}

/**
 * The i-th largest |t| against the largest of those that remain. Comparisons judged by different scatters, between batches and within
 * them, are ordered by p and taken as independent, which is the cautious side (Sidak 1967).
 */
function stepDownDunnett(own: readonly OwnTest[], sizeOf: (treatment: string) => number): number[] {
  const mixed = own.some(({ model }) => model !== own[0]!.model);
  const loadings = own.map(({ row }) =>
    mixed ? 0 : Math.sqrt(sizeOf(row.first) / (sizeOf(row.first) + sizeOf(row.second))),
  );
  return steppedDown(
    own.map(({ t, p }) => (mixed ? -p : Math.abs(t))),
    (at, remaining) =>
      dunnettTail(
        Math.abs(own[at]!.t),
        remaining.map((one) => loadings[one]!),
        own[at]!.model.errorDf,
      ),
  );
}

/** From the strongest on, each among those that remain; the running maximum. */
function steppedDown(strengths: readonly number[], pOf: (at: number, remaining: number[]) => number): number[] {
  const order = [...strengths.keys()].sort((a, b) => strengths[b]! - strengths[a]!);
  const adjusted = strengths.map(() => 0);
  let largest = 0;
  for (const [place, at] of order.entries()) {
    largest = Math.max(largest, pOf(at, order.slice(place)));
    adjusted[at] = Math.min(1, largest);
  }
  return adjusted;
}

/** Brown and Forsythe on what treatments and blocks leave. */
function unevenScatter({ units, fit }: ValueModel): boolean {
  const residuals = fit?.residuals ?? [];
  const treatments = [...new Set(units.map((unit) => unit.treatment))];
  const groups = treatments.map((name) => residuals.filter((_, at) => units[at]!.treatment === name));
  // Two residuals of one treatment are equally far from their middle: nothing to compare.
  const known = groups.filter((group) => group.length > 2);
  return known.length > 1 && known.some(distancesVary) && brownForsythe({ groups: known }).p <= 0.05;
}

function distancesVary(group: readonly number[]): boolean {
  const middle = median(group);
  const distances = group.map((value) => Math.abs(value - middle));
  return Math.max(...distances) - Math.min(...distances) > 1e-9 * Math.max(...distances);
}

function methodOf(question: Question, { step, standing }: ComparisonRow, exactP: number): string {
  const adjustment = step === "family" && question.family === "control" ? "step-down Dunnett" : "Tukey and Kramer";
  const adjusted = standing === "in" ? `; ${adjustment} with a guard by the scatter of the pair alone` : "";
  return `t with the error of treatment and block${adjusted}; exact rearrangement test of the pair p ${exactP.toPrecision(2)}`;
}
