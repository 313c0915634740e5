/** Difference of measured values, or their ratio. */
import type { Effect } from "./finding.ts";
import type { Question } from "./question.ts";
import type { Unit } from "./units-of-replication.ts";

export type ValueModel = { errorDf: number };
type TwoGroups = readonly [readonly Unit[], readonly Unit[]];

export function valueEffect(_question: Question, _model: ValueModel, _groups: TwoGroups, _confidence: number): Effect {
  throw new Error("not yet");
}
export function valueEquivalenceP(
  _question: Question,
  _model: ValueModel,
  _groups: TwoGroups,
  _margin: number,
): number {
  throw new Error("not yet");
}
