/** Which rearrangements of some units a draw would have accepted that was repeated until it was spread. */
import type { Acceptance } from "../statistics/placed-rearrangements.ts";
import type { Question } from "./question.ts";
import { edgesOfPlaces, noTreatmentAllOnOneEdge } from "./spread-rule.ts";
import type { Plan } from "./trial-record.ts";
import type { Unit } from "./units-of-replication.ts";

/** The rule that the draw fulfilled, with every place it was judged on; a plan that was corrected since may no longer fulfil it. */
export function spreadOf({ allocation, places }: Plan): Pick<Question, "spread"> {
  if (allocation.how !== "drawn" || allocation.spread === undefined) return {};
  const hung = places.flatMap(({ coupon, treatment, rack }) => (rack ? [{ coupon, treatment, ...rack }] : []));
  return noTreatmentAllOnOneEdge(hung) ? { spread: { rule: allocation.spread, places: hung } } : {};
}

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
