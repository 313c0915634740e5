/** Difference of the shares that came out well, first less second. */
import { newcombeDifference } from "../statistics/newcombe-difference.ts";
import type { Effect } from "./finding.ts";
import type { Question } from "./question.ts";
import { unitValue } from "./unit-scores.ts";
import type { Unit } from "./units-of-replication.ts";

type TwoGroups = readonly [readonly Unit[], readonly Unit[]];

/** A fraction from -1 to 1 with Newcombe's limits. */
export function shareEffect(question: Question, groups: TwoGroups, confidence: number): Effect {
  const { difference, lower, upper } = newcombeDifference({ ...goodOutcomes(question, groups), confidence });
  return { name: "difference of shares", value: difference, lower, upper, confidence };
}

function goodOutcomes(question: Question, [first, second]: TwoGroups) {
  const good = (units: readonly Unit[]) => units.filter((unit) => unitValue(question, unit) === 1).length;
  return { successes1: good(first), trials1: first.length, successes2: good(second), trials2: second.length };
}

/** Half of what the widest interval inside the margin leaves out; 1 when even the difference itself is not inside. */
export function shareEquivalenceP(question: Question, groups: TwoGroups, margin: number): number {
  const counts = goodOutcomes(question, groups);
  const inside = (confidence: number) => {
    const { lower, upper } = newcombeDifference({ ...counts, confidence });
    return lower > -margin && upper < margin;
  };
  let [wide, narrow] = [1 - 1e-12, 1e-9];
  if (!inside(narrow)) return 1;
  if (inside(wide)) return (1 - wide) / 2;
  for (let round = 0; round < 60; round++) {
    const middle = (wide + narrow) / 2;
    if (inside(middle)) narrow = middle;
    else wide = middle;
  }
  return (1 - narrow) / 2;
}
