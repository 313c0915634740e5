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
  let ways = 1;
  let dealt = 0;
  for (const size of groupSizes) {
    for (let taken = 1; taken <= size; taken++) {
      // Whole at each step, as it is a number of choices; a product beyond whole numbers is left to exact arithmetic.
      const product = ways * (dealt + taken);
      if (!(product <= Number.MAX_SAFE_INTEGER)) return Number(allocations(groupSizes));
      ways = product / taken;
    }
    dealt += size;
  }
  return ways;
}

/** The coupons of one block: their scores in any order, and how many of them each group gets. */
export type DealtBlock = { scores: readonly number[]; groupSizes: readonly number[] };

/** How many ways there are to deal all blocks. */
export function blockAllocationCount(blocks: readonly DealtBlock[]): number {
  return blocks.reduce((product, block) => product * allocationCount(block.groupSizes), 1);
}

/** Coupons of one block with the same score: only how many of them a group gets can matter. */
type TiedCoupons = { score: number; times: number; room: number[] };

/**
 * Goes through all allocations within blocks. `visit` gets the sum of the scores of each group, good only during the call, and the
 * number of allocations that give these sums in this way.
 */
export function eachAllocation(blocks: readonly DealtBlock[], visit: (sums: Float64Array, ways: number) => void): void {
  const tied = blocks.flatMap(tiedCoupons);
  const groups = blocks[0]?.groupSizes.length ?? 0;
  const sums = new Float64Array(groups);
  const choices = binomials(Math.max(0, ...tied.map((one) => one.times)));

  const place = (at: number, ways: number): void => {
    const here = tied[at];
    if (!here) visit(sums, ways);
    else if (here.times > 1) spread(at, 0, here.times, ways);
    else placeOne(at, here, ways);
  };
  const placeOne = (at: number, { score, room }: TiedCoupons, ways: number): void => {
    for (let group = 0; group < groups; group++) {
      if (room[group] === 0) continue;
      const before = sums[group]!;
      room[group]!--;
      sums[group] = before + score;
      place(at + 1, ways);
      sums[group] = before;
      room[group]!++;
    }
  };
  const spread = (at: number, group: number, left: number, ways: number): void => {
    if (group === groups) {
      place(at + 1, ways);
      return;
    }
    const { score, room } = tied[at]!;
    const [before, own] = [sums[group]!, room[group]!];
    let later = 0;
    for (let other = group + 1; other < groups; other++) later += room[other]!;
    for (let taken = Math.max(0, left - later); taken <= Math.min(left, own); taken++) {
      room[group] = own - taken;
      sums[group] = before + taken * score;
      spread(at, group + 1, left - taken, ways * choices[left]![taken]!);
    }
    room[group] = own;
    sums[group] = before;
  };
  place(0, 1);
}

function tiedCoupons({ scores, groupSizes }: DealtBlock): TiedCoupons[] {
  const room = [...groupSizes];
  const tied: TiedCoupons[] = [];
  for (const score of [...scores].sort((a, b) => a - b)) {
    const last = tied.at(-1);
    if (last?.score === score) last.times++;
    else tied.push({ score, times: 1, room });
  }
  return tied;
}

/** Rows of Pascal's triangle up to n. */
function binomials(n: number): Float64Array[] {
  const rows = [Float64Array.of(1)];
  for (let row = 1; row <= n; row++) {
    const above = rows[row - 1]!;
    rows.push(Float64Array.from({ length: row + 1 }, (_, k) => (above[k - 1] ?? 0) + (above[k] ?? 0)));
  }
  return rows;
}
