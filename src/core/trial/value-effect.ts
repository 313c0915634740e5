/** Difference of measured values, or their ratio, with the scatter of the whole trial. */
import { tQuantile, tSf, tTwoSided } from "../numeric/t-distribution.ts";
import { mean } from "../statistics/moments.ts";
import { type PlacedValue, type TreatmentBlockFit, treatmentBlockFit } from "../statistics/treatment-block-fit.ts";
import { welchError } from "../statistics/welch-t.ts";
import type { Effect } from "./finding.ts";
import type { Question } from "./question.ts";
import { unitValue } from "./unit-scores.ts";
import type { Unit } from "./units-of-replication.ts";

/** `fit` null: nothing scatters within any treatment, so the exact test alone decides. Its residuals are those of `units`, in order. */
export type ValueModel = {
  units: readonly Unit[];
  errorDf: number;
  fit: (TreatmentBlockFit & { meanSquare: number }) | null;
};
type TwoGroups = readonly [readonly Unit[], readonly Unit[]];

/** Treatment plus block on the units' values (logarithms for ratios). */
export function valueModel(question: Question, units: readonly Unit[]): ValueModel {
  const fit = treatmentBlockFit(placedValues(question, units));
  const { meanSquare, errorDf } = fit;
  const largest = Math.max(...units.map((unit) => Math.abs(unitValue(question, unit))));
  const scatters = meanSquare !== null && meanSquare > (1e-12 * largest) ** 2;
  return { units, errorDf, fit: scatters ? { ...fit, meanSquare } : null };
}

/** On the log scale for ratios. */
export function placedValues(question: Question, units: readonly Unit[]): PlacedValue[] {
  return units.map((unit) => ({ value: unitValue(question, unit), treatment: unit.treatment, block: unit.block }));
}

/** t of a pair with the error mean square of the trial; null where no blocks tie the two together. */
export function pairT({ fit, errorDf }: ValueModel, first: string, second: string): { t: number; p: number } | null {
  const difference = fit?.difference(first, second);
  if (!fit || !difference) return null;
  const t = difference.value / Math.sqrt(fit.meanSquare * difference.variance);
  return { t, p: Math.max(Number.MIN_VALUE, tTwoSided(t, errorDf)) };
}

/** In the response's unit, or a ratio; limits null where nothing scatters. */
export function valueEffect(
  question: Question,
  model: ValueModel,
  groups: TwoGroups,
  confidence: number,
): Effect | null {
  const [first, second] = groups.map((units) => units[0]!.treatment);
  const difference = (model.fit ?? treatmentBlockFit(placedValues(question, groups.flat()))).difference(
    first!,
    second!,
  );
  if (!difference) return null;
  const reach = model.fit
    ? tQuantile((1 + confidence) / 2, model.errorDf) * Math.sqrt(model.fit.meanSquare * difference.variance)
    : null;
  const scaled = (value: number) => (question.ratio ? Math.exp(value) : value);
  return {
    name: question.ratio ? "ratio" : "difference",
    value: scaled(difference.value),
    lower: reach === null ? null : scaled(difference.value - reach),
    upper: reach === null ? null : scaled(difference.value + reach),
    confidence,
  };
}

/** By the error of the trial and by Welch, the larger p. */
export function valueEquivalenceP(
  question: Question,
  model: ValueModel,
  groups: TwoGroups,
  margin: number,
): number | null {
  const [first, second] = groups.map((units) => units[0]!.treatment);
  const difference = model.fit?.difference(first!, second!);
  if (!model.fit || !difference) return null;
  const pooled = twoOneSided(
    difference.value,
    Math.sqrt(model.fit.meanSquare * difference.variance),
    model.errorDf,
    margin,
  );
  const [one, other] = groups.map((units) => units.map((unit) => unitValue(question, unit)));
  const { squaredError, df } = welchError(one!, other!);
  if (!(squaredError > 0)) return pooled;
  const plain = mean(one!) - mean(other!);
  return Math.max(pooled, twoOneSided(plain, Math.sqrt(squaredError), df, margin));
}

function twoOneSided(difference: number, standardError: number, df: number, margin: number): number {
  return Math.max(tSf((difference + margin) / standardError, df), tSf((margin - difference) / standardError, df));
}
