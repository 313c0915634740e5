/**
 * The scatter by which measured values are judged: one for all, or, where batches are whole plots, one between batches and one within
 * them.
 *
 * Between batches, a unit varies by its batch and by itself: the batches' part is what treatments and blocks leave beyond the scatter
 * within batches, divided by how often it stands in there (Henderson 1953, method 3). For balanced plots that is the textbook's
 * (MS of whole plots + (s - 1) MS of sub-plots) / s, s treatments in a batch. Its degrees of freedom are those of the batches alone, since
 * treatments that share a batch vary together.
 */
import { treatmentBlockFit } from "../statistics/treatment-block-fit.ts";
import type { Question } from "./question.ts";
import { comparedPairs } from "./rearranged-sets.ts";
import { type TrialLayout, type Unit, unitsOfReplication } from "./units-of-replication.ts";
import { placedValues, type ValueModel, valueModel } from "./value-effect.ts";

/** The model that judges a pair, asked by name. */
export type ValueModels = (first: string, second: string) => ValueModel;

/** `units`: those of the family. Treatments that share their batches are judged by the scatter within them. */
export function valueModels(question: Question, layout: TrialLayout, units: readonly Unit[]): ValueModels {
  const whole = valueModel(question, units);
  if (!units.some((unit) => unit.plot !== "")) return () => whole;
  const within = valueModel(question, subPlots(question, layout));
  const between = betweenBatches(question, layout, whole, within);
  return (first, second) => (layout.withinBatches([first, second]) ? within : between);
}

function betweenBatches(question: Question, layout: TrialLayout, whole: ValueModel, within: ValueModel): ValueModel {
  const errorDf = batchDf(question, layout, whole.units);
  if (!whole.fit || !within.fit || errorDf < 1) return { ...whole, errorDf };
  const batches = batchesOf(whole.units);
  const placed = placedValues(question, whole.units);
  // How much of a batch is left over when treatments and blocks are taken out of it.
  const left = [...new Set(batches)].reduce((sum, batch) => {
    const indicator = placed.map((one, at) => ({ ...one, value: batches[at] === batch ? 1 : 0 }));
    return sum + treatmentBlockFit(indicator).residuals.reduce((squares, one) => squares + one * one, 0);
  }, 0);
  const squares = whole.fit.meanSquare * whole.errorDf;
  const batchVariance = (squares - whole.errorDf * within.fit.meanSquare) / left;
  return { ...whole, errorDf, fit: { ...whole.fit, meanSquare: batchVariance + within.fit.meanSquare } };
}

/** The batch of each unit; one that stands by itself is its own. */
function batchesOf(units: readonly Unit[]): string[] {
  return units.map(({ plot }, at) => (plot === "" ? `alone ${at}` : `batch ${plot}`));
}

/** The one that judges two groups of units. */
export function modelOf(models: ValueModels, groups: readonly [readonly Unit[], readonly Unit[]]): ValueModel {
  const [first, second] = groups.map((units) => units[0]?.treatment ?? "");
  return models(first!, second!);
}

/** Batches, and units that stand by themselves, less what is compared between them and their blocks. */
function batchDf({ treatments }: Question, layout: TrialLayout, units: readonly Unit[]): number {
  const levelOf = (treatment: string) =>
    treatments.find((one) => one === treatment || layout.withinBatches([one, treatment])) ?? treatment;
  const batches = batchesOf(units);
  const wholePlots = units.filter((_, at) => batches.indexOf(batches[at]!) === at);
  return treatmentBlockFit(
    wholePlots.map(({ treatment, block }) => ({ value: 0, treatment: levelOf(treatment), block })),
  ).errorDf;
}

/** Units as the comparisons within batches ask for them, each batch a block. */
function subPlots(question: Question, layout: TrialLayout): Unit[] {
  const { treatments } = question;
  const pairs = comparedPairs(treatments, "pairs").filter((pair) => layout.withinBatches(pair));
  return unitsOfReplication(question, layout, { treatments, pairs })
    .filter(({ plot }) => plot !== "")
    .map((unit) => ({ ...unit, block: JSON.stringify([unit.block, unit.plot]) }));
}
