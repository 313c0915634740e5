/** Difference of the shares that came out well, first less second. */
import { shareDifferenceLimits } from "../statistics/wilson-limits.ts";
import type { Effect } from "./finding.ts";
import type { Question } from "./question.ts";
import { mean, unitValue } from "./unit-scores.ts";
import type { Unit } from "./units-of-replication.ts";

type TwoGroups = readonly [readonly Unit[], readonly Unit[]];

export function shareEffect(question: Question, groups: TwoGroups, confidence: number): Effect {
  const [first, second] = shares(question, groups);
  return {
    name: "difference of shares",
    value: first.share - second.share,
    ...shareDifferenceLimits(first, second, confidence),
    confidence,
  };
}

function shares(question: Question, [first, second]: TwoGroups) {
  const shareOf = (units: readonly Unit[]) => ({
    share: mean(units.map((unit) => unitValue(question, unit))),
    trials: units.length,
  });
  return [shareOf(first), shareOf(second)] as const;
}

/** Half of what the widest interval inside the margin leaves out; 1 when even the difference itself is not inside. */
export function shareEquivalenceP(question: Question, groups: TwoGroups, margin: number): number {
  const [first, second] = shares(question, groups);
  const inside = (confidence: number) => {
    const { lower, upper } = shareDifferenceLimits(first, second, confidence);
    return lower > -margin && upper < margin;
  };
  if (!inside(1e-9)) return 1;
  let [wide, narrow] = [1 - 1e-12, 1e-9];
  if (inside(wide)) return (1 - wide) / 2;
  for (let round = 0; round < 60; round++) {
    const middle = (wide + narrow) / 2;
    if (inside(middle)) narrow = middle;
    else wide = middle;
  }
  return (1 - narrow) / 2;
}
