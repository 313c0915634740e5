/**
 * Are two treatments alike for the user's purpose? Two one-sided tests at the ends of the margin (Schuirmann 1987), the larger p,
 * adjusted by Holm over the declared family. Needs a margin and three units of each.
 */
import { holmAdjusted } from "../statistics/holm-adjusted.ts";
import { shiftedRankSum } from "../statistics/shift-by-ranks.ts";
import type { Finding } from "./finding.ts";
import type { Fitted } from "./fitted-models.ts";
import type { Question } from "./question.ts";
import { betterUpwards, showsAreas } from "./rank-effect.ts";
import { scaledMargin } from "./scaled-margin.ts";
import { shareEquivalenceP } from "./share-effect.ts";
import type { Unit } from "./units-of-replication.ts";
import { valueEquivalenceP } from "./value-effect.ts";
import { modelOf } from "./value-models.ts";

type TwoGroups = readonly [readonly Unit[], readonly Unit[]];

/** One p for the pair; null where there is no such test. */
export function equivalenceP(question: Question, fitted: Fitted, groups: TwoGroups): number | null {
  const margin = scaledMargin(question);
  const [first, second] = groups;
  if (margin === null || question.margin === null || first.length < 3 || second.length < 3) return null;
  switch (question.kind) {
    case "time":
      return fitted.time?.equivalenceP(first[0]!.treatment, second[0]!.treatment, question.margin) ?? null;
    case "area":
      return groups.every((units) => showsAreas(question, units)) ? byRanks(question, groups, margin) : null;
    case "ordinal":
      return byRanks(question, groups, margin);
    case "binary":
      return shareEquivalenceP(question, groups, margin);
    case "continuous":
      return fitted.value && valueEquivalenceP(question, modelOf(fitted.value, groups), groups, margin);
  }
}

/** The first, moved up by the margin, must lie above the second; moved down by it, below. */
function byRanks(question: Question, groups: TwoGroups, margin: number): number {
  const [first, second] = groups.map((units) => betterUpwards(question, units));
  return Math.max(shiftedRankSum(first!, second!, -margin).atLeast, shiftedRankSum(first!, second!, margin).atMost);
}

/** Adjusted over those of the family that have a p at all. */
export function adjustedEquivalence(pValues: readonly (number | null)[]): Finding["equivalence"][] {
  const known = pValues.filter((p) => p !== null);
  const adjusted = holmAdjusted(known);
  let next = 0;
  return pValues.map((p) => (p === null ? null : { p, pAdjusted: adjusted[next++]! }));
}
