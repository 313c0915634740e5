/** Whether groups scatter alike. */
import { anovaOneWay } from "./anova-one-way.ts";
import { requireGroups } from "./table-of-values.ts";

/**
 * Brown and Forsythe's test of equal scatter.
 *
 * Method   means.brownForsythe
 * Formula  one-way analysis of variance of |value - group median|
 * Units    any, the same in all groups
 * Source   Brown and Forsythe 1974
 * Status   computed
 * Holds    also for skewed values; weak for a handful per group
 * Refuses  one group; an empty group; one value per group; distances that do not scatter
 */
export function brownForsythe({ groups }: { groups: number[][] }): { f: number; df1: number; df2: number; p: number } {
  requireGroups("groups", groups, 1);
  const distances = groups.map((group) => {
    const middle = median(group);
    return group.map((value) => Math.abs(value - middle));
  });
  const { f, p, dfBetween, dfWithin } = anovaOneWay({ groups: distances });
  return { f, df1: dfBetween, df2: dfWithin, p };
}

/** Middle value, or the mean of the two middle ones. */
export function median(values: readonly number[]): number {
  const ascending = [...values].sort((a, b) => a - b);
  const half = ascending.length / 2;
  return Number.isInteger(half) ? (ascending[half - 1]! + ascending[half]!) / 2 : ascending[Math.floor(half)]!;
}
