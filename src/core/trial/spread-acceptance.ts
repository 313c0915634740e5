/** Which rearrangements of some units a draw would have accepted that was repeated until it was spread. */
import type { Acceptance } from "../statistics/placed-rearrangements.ts";
import type { Question } from "./question.ts";
import { edgesOfPlaces } from "./spread-rule.ts";
import type { Unit } from "./units-of-replication.ts";

/** The units' coupons take other labels; every other coupon keeps its own. Undefined: any rearrangement could have come. */
export function acceptedBySpread(
  { spread }: Pick<Question, "spread">,
  units: readonly Unit[],
  treatments: readonly string[],
): Acceptance | undefined {
  if (!spread) return undefined;
  const edges = edgesOfPlaces(spread.places);
  const moved = new Map(units.flatMap((unit, at) => unit.coupons.map(({ coupon }) => [coupon, at] as const)));
  // Edges on which all coupons seen so far hang, as bits; and how many they are.
  const every = 2 ** 4 - 1;
  const unitEdges = units.map(() => every);
  const unitPlaces = units.map(() => 0);
  const keptEdges = treatments.map(() => every);
  const keptPlaces = treatments.map(() => 0);
  for (const [place, { coupon, treatment }] of spread.places.entries()) {
    const unit = moved.get(coupon);
    const group = treatments.indexOf(treatment);
    if (unit !== undefined) {
      unitEdges[unit]! &= edges[place]!;
      unitPlaces[unit]!++;
    } else if (group >= 0) {
      keptEdges[group]! &= edges[place]!;
      keptPlaces[group]!++;
    }
  }
  return (labels) => {
    const [all, count] = [[...keptEdges], [...keptPlaces]];
    for (let unit = 0; unit < labels.length; unit++) {
      const group = labels[unit]!;
      all[group]! &= unitEdges[unit]!;
      count[group]! += unitPlaces[unit]!;
    }
    return all.every((edge, group) => edge === 0 || count[group]! < 2);
  };
}
