/** The exact test of sets of treatments, with the units that the compared pairs of each set ask for. */
import {
  drawnRearrangements,
  type LabelledScore,
  type RearrangementP,
  type RearrangementStatistic,
  rearrangementTest,
  smallestRearrangementP,
} from "../statistics/rearrangement-test.ts";
import type { Question } from "./question.ts";
import { unitScores } from "./unit-scores.ts";
import { type TrialLayout, unitsOfReplication } from "./units-of-replication.ts";

export type SetTest = (treatments: readonly string[], statistic: RearrangementStatistic) => RearrangementP;

/**
 * `draws`: of the sets too large to be counted; fewer only while a plan is simulated. `stopAbove`: of a larger p it is only asked
 * that it is larger.
 */
export type Drawing = { draws: number; stopAbove?: number };
export const fullDrawing: Drawing = { draws: drawnRearrangements };

/** With "control", the first treatment named is the control. */
export function setTest(question: Question, layout: TrialLayout, drawing: Drawing): SetTest {
  return (treatments, statistic) => {
    const scores = setScores(question, layout, treatments, statistic);
    if (!allThere(scores, treatments)) return { p: 1, rearrangements: 1, drawn: null };
    return rearrangementTest(scores, { statistic, seed: question.seed, ...drawing });
  };
}

/** A treatment whose coupons are all lost leaves nothing to rearrange. */
function allThere(scores: readonly LabelledScore[], treatments: readonly string[]): boolean {
  return treatments.every((_, group) => scores.some((one) => one.group === group));
}

/** One score for each unit, the groups numbered as the treatments are named. */
export function setScores(
  question: Question,
  layout: TrialLayout,
  treatments: readonly string[],
  statistic: RearrangementStatistic,
): LabelledScore[] {
  const pairs = comparedPairs(treatments, statistic);
  return unitScores(question, unitsOfReplication(question, layout, { treatments, pairs }), treatments);
}

/** Each of the others with the first, or all. */
export function comparedPairs(treatments: readonly string[], statistic: RearrangementStatistic): [string, string][] {
  const [control, ...others] = treatments;
  if (control === undefined) return [];
  if (statistic === "control") return others.map((other) => [other, control]);
  return treatments.flatMap((first, at) => treatments.slice(at + 1).map((second): [string, string] => [first, second]));
}

/** Smallest p that layout and ties allow a pair; 1 where one of the two has no coupon left. */
export function smallestPairP(question: Question, layout: TrialLayout, first: string, second: string): number {
  const scores = setScores(question, layout, [first, second], "pairs");
  return allThere(scores, [first, second]) ? smallestRearrangementP(scores) : 1;
}
