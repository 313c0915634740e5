/** The exact test of sets of treatments, with the units that the compared pairs of each set ask for. */
import { type PlacedScore, placedRearrangementTest, smallestPlacedP } from "../statistics/placed-rearrangements.ts";
import {
  drawnRearrangements,
  type RearrangementP,
  type RearrangementStatistic,
  rearrangementTest,
  smallestRearrangementP,
} from "../statistics/rearrangement-test.ts";
import type { Question } from "./question.ts";
import { acceptedBySpread } from "./spread-acceptance.ts";
import { unitScores } from "./unit-scores.ts";
import { type TrialLayout, type Unit, unitsOfReplication } from "./units-of-replication.ts";

export type SetTest = (treatments: readonly string[], statistic: RearrangementStatistic) => RearrangementP;

/**
 * `draws`: of the sets too large to be counted; fewer only while a plan is simulated. `stopAbove`: of a larger p it is only asked
 * that it is larger.
 */
export type Drawing = { draws: number; stopAbove?: number };
export const fullDrawing: Drawing = { draws: drawnRearrangements };

/** With "control", the first treatment named is the control. */
export function setTest(question: Question, layout: TrialLayout, { draws, stopAbove = 1 }: Drawing): SetTest {
  return (treatments, statistic) => {
    const units = setUnits(question, layout, treatments, statistic);
    const scores = unitScores(question, units, treatments);
    if (!allThere(scores, treatments)) return { p: 1, rearrangements: 1, drawn: null };
    const ask = { statistic, seed: question.seed, draws };
    if (!isPlaced(question, scores)) return rearrangementTest(scores, { ...ask, stopAbove });
    return placedRearrangementTest(scores, { ...ask, accepts: acceptedBySpread(question, units, treatments) });
  };
}

/** The lot was more than free or within blocks. */
function isPlaced({ spread }: Question, scores: readonly PlacedScore[]): boolean {
  return spread !== undefined || scores.some((one) => one.plot !== "");
}

/** A treatment whose coupons are all lost leaves nothing to rearrange. */
function allThere(scores: readonly PlacedScore[], treatments: readonly string[]): boolean {
  return treatments.every((_, group) => scores.some((one) => one.group === group));
}

/**
 * The units of the set, in the order of the treatments. Where some of them share their batches and others do not, what is rearranged
 * within a batch is what was treated separately there; that a batch is the unit of the others is kept by exchanging whole batches.
 */
export function setUnits(
  question: Question,
  layout: TrialLayout,
  treatments: readonly string[],
  statistic: RearrangementStatistic,
): Unit[] {
  const inBatches = comparedPairs(treatments, "pairs").filter((pair) => layout.withinBatches(pair));
  const pairs = inBatches.length > 0 ? inBatches : comparedPairs(treatments, statistic);
  return unitsOfReplication(question, layout, { treatments, pairs });
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
  const units = setUnits(question, layout, [first, second], "pairs");
  const scores = unitScores(question, units, [first, second]);
  if (!allThere(scores, [first, second])) return 1;
  if (!isPlaced(question, scores)) return smallestRearrangementP(scores);
  return smallestPlacedP(scores, {
    seed: question.seed,
    accepts: acceptedBySpread(question, units, [first, second]),
  });
}
