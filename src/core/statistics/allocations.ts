/**
 * The ways in which coupons could have been allotted to treatments, counted and one by one.
 *
 * Units    counts
 * Source   definition of the reference set of a permutation test
 * Status   common practice
 */
import { allocations } from "../numeric/combinations.ts";

/** How many ways there are to deal coupons into groups of these sizes; as a number, Infinity where a number cannot hold it. */
export function allocationCount(groupSizes: readonly number[]): number {
  return Number(allocations(groupSizes));
}

/**
 * Visits each allocation of `scores` to groups of `groupSizes` once. While `visit` runs, the scores of each group have been added
 * to `sums`; afterwards `sums` is as before, so that blocks can be nested in one another.
 */
export function eachAllocation(
  scores: readonly number[],
  groupSizes: readonly number[],
  sums: number[],
  visit: () => void,
): void {
  const room = [...groupSizes];
  const place = (at: number): void => {
    if (at === scores.length) {
      visit();
      return;
    }
    for (let group = 0; group < room.length; group++) {
      if (room[group] === 0) continue;
      const before = sums[group]!;
      room[group]!--;
      sums[group] = before + scores[at]!;
      place(at + 1);
      sums[group] = before;
      room[group]!++;
    }
  };
  place(0);
}
