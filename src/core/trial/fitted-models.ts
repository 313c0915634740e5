/** What the whole trial says about scatter: one fit of all treatments for each step of the comparisons, on its own units. */
import type { TimeRatioModel } from "../statistics/weibull-time-ratios.ts";
import { type ComparisonRow, controlOf } from "./comparison-rows.ts";
import type { Question } from "./question.ts";
import { comparedPairs } from "./rearranged-sets.ts";
import { trialTimeModel } from "./time-effect.ts";
import { type TrialLayout, type Unit, unitsOfReplication } from "./units-of-replication.ts";
import { type ValueModels, valueModels } from "./value-models.ts";

/** `time` null: no finite shape, or not a time. `value` null: not a measured value. */
export type Fitted = { units: Unit[]; time: TimeRatioModel | null; value: ValueModels | null };
export type FittedModels = Record<ComparisonRow["step"], Fitted>;

/** The fit for the declared family, and for the finishes among themselves where their units are coarser. */
export function fittedModels(question: Question, layout: TrialLayout): FittedModels {
  const { treatments } = question;
  const fittedTo = (pairs: [string, string][]): Fitted => {
    const units = unitsOfReplication(question, layout, { treatments, pairs });
    return {
      units,
      time: question.kind === "time" ? trialTimeModel(units) : null,
      value: question.kind === "continuous" ? valueModels(question, layout, units) : null,
    };
  };
  const all = comparedPairs(treatments, "pairs");
  if (question.family === "pairs") {
    const family = fittedTo(all);
    return { family, "second step": family };
  }
  const control = controlOf(question);
  const family = fittedTo(comparedPairs([control, ...treatments.filter((one) => one !== control)], "control"));
  // Finishes that share a run with the control, but not with each other, have fewer units among themselves.
  const coarser = unitsOfReplication(question, layout, { treatments, pairs: all }).length < family.units.length;
  return { family, "second step": coarser ? fittedTo(all) : family };
}
