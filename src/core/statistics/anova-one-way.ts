/** Several groups of values compared at once. */
import { InputError } from "../input-error.ts";
import { fSf } from "../numeric/f-distribution.ts";
import { centred, mean, requireScatter, sum, sumOfSquares } from "./moments.ts";
import { requireGroups } from "./table-of-values.ts";

/**
 * One-way analysis of variance.
 *
 * Method   means.anovaOneWay
 * Formula  F = (Σ n (group mean - mean)² / (k-1)) / (Σ (value - group mean)² / (N-k))
 * Units    any, the same in all groups
 * Source   one-way analysis of variance, fixed effects; NIST StRD data sets reproduce to the certified digits asked
 * Status   computed
 * Holds    for values that scatter alike in all groups; percent areas and strokes as logarithms
 * Refuses  one group; an empty group; one value per group; no scatter within the groups
 */
export function anovaOneWay({ groups }: { groups: number[][] }) {
  requireGroups("groups", groups, 1);
  const values = centred(groups);
  const grand = mean(values.flat());
  const ssBetween = sum(values.map((group) => group.length * (mean(group) - grand) ** 2));
  const { ssWithin, dfWithin } = withinGroups(groups);
  const dfBetween = groups.length - 1;
  const f = ssBetween / dfBetween / (ssWithin / dfWithin);
  return { ssBetween, ssWithin, dfBetween, dfWithin, f, p: fSf(f, dfBetween, dfWithin) };
}

/** Scatter within the groups, pooled; refuses none and no degrees of freedom. */
export function withinGroups(groups: number[][]): { ssWithin: number; dfWithin: number } {
  const dfWithin = groups.flat().length - groups.length;
  if (dfWithin === 0) throw new InputError("groups", groups, "at least one group with two values");
  const ssWithin = sum(centred(groups).map(sumOfSquares));
  requireScatter("groups", ssWithin, groups.flat(), "values that scatter within a group");
  return { ssWithin, dfWithin };
}
