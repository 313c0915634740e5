import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blockAllocationCount, type DealtBlock, eachAllocation } from "./allocations.ts";
import { drawAllocations } from "./drawn-rearrangements.ts";
import { countFarSums } from "./two-group-sums.ts";

/** Every allocation of one block, by giving each coupon in turn to each group that has room: the sums, once for each allocation. */
function oneByOne({ scores, groupSizes }: DealtBlock): number[][] {
  const deal = (at: number, room: number[], sums: number[]): number[][] =>
    at === scores.length
      ? [sums]
      : room.flatMap((left, group) =>
          left === 0 ? [] : deal(at + 1, room.with(group, left - 1), sums.with(group, sums[group]! + scores[at]!)),
        );
  return deal(
    0,
    [...groupSizes],
    groupSizes.map(() => 0),
  );
}

function withinBlocks(blocks: readonly DealtBlock[]): number[][] {
  return blocks.reduce<number[][]>(
    (all, block) => {
      const own = oneByOne(block);
      return all.flatMap((sums) => own.map((more) => sums.map((sum, group) => sum + more[group]!)));
    },
    [blocks[0]!.groupSizes.map(() => 0)],
  );
}

/** Few different scores, so that ties are the everyday case; a group may be missing from a block. */
const blockOf = (groups: number, most: number) =>
  fc
    .array(fc.integer({ min: 0, max: most }), { minLength: groups, maxLength: groups })
    .filter((sizes) => sizes.some((size) => size > 0))
    .chain((groupSizes) =>
      fc.record({
        groupSizes: fc.constant(groupSizes),
        scores: fc.array(fc.constantFrom(-2, -0.5, 0, 0.1, 1 / 3, 1), {
          minLength: groupSizes.reduce((sum, size) => sum + size, 0),
          maxLength: groupSizes.reduce((sum, size) => sum + size, 0),
        }),
      }),
    );

const counted = (all: Iterable<readonly [readonly number[], number]>) => {
  const counts = new Map<string, number>();
  for (const [sums, ways] of all) {
    const key = sums.map((sum) => (Math.round(sum * 1e9) / 1e9 + 0).toString()).join(" ");
    counts.set(key, (counts.get(key) ?? 0) + ways);
  }
  return counts;
};

describe("all allocations", () => {
  test("by hand: scores 1 1 2 dealt to groups of two and one", () => {
    const seen: [number[], number][] = [];
    eachAllocation([{ scores: [1, 1, 2], groupSizes: [2, 1] }], (sums, ways) => seen.push([[...sums], ways]));
    // {1, 1} against 2 in one way, {1, 2} against 1 in two.
    expect(counted(seen)).toEqual(counted([[[2, 2], 1] as const, [[3, 1], 2] as const]));
  });

  test("the same sums as often as going through them coupon by coupon, with ties, in blocks", () => {
    fc.assert(
      fc.property(fc.array(blockOf(3, 2), { minLength: 1, maxLength: 2 }), (blocks) => {
        const seen: [number[], number][] = [];
        eachAllocation(blocks, (sums, ways) => seen.push([[...sums], ways]));
        expect(counted(seen)).toEqual(counted(withinBlocks(blocks).map((sums) => [sums, 1] as const)));
        expect(seen.reduce((sum, [, ways]) => sum + ways, 0)).toBe(blockAllocationCount(blocks));
      }),
      { numRuns: 60 },
    );
  });

  test("two groups: as many far sums as going through them finds", () => {
    const distance = fc.constantFrom(0.05, 0.4, 1, 5 / 3, 3);
    fc.assert(
      fc.property(fc.array(blockOf(2, 3), { minLength: 1, maxLength: 3 }), distance, (blocks, far) => {
        const found = withinBlocks(blocks).filter(([sum]) => Math.abs(sum!) >= far - 1e-9).length;
        expect(countFarSums(blocks, far - 1e-9)).toBe(found);
      }),
      { numRuns: 100 },
    );
  });
});

describe("drawn allocations", () => {
  test.each([
    ["a block that is written down", [{ scores: [1, 2, 4, 8], groupSizes: [1, 2, 1] }]],
    // 8 coupons in groups of 3, 3 and 2: 560 are written down; 9 in groups of 4, 3, 2: 1260 are shuffled.
    ["a block that is shuffled", [{ scores: [1, 2, 4, 8, 16, 32, 64, 128, 256], groupSizes: [2, 4, 3] }]],
    [
      "one of each",
      [
        { scores: [0, 1000], groupSizes: [1, 1, 0] },
        { scores: [1, 2, 4, 8, 16, 32, 64, 128, 256], groupSizes: [2, 4, 3] },
      ],
    ],
  ])("%s: each comes up as often as any other", (_, blocks) => {
    const all = blockAllocationCount(blocks);
    const counts = new Map<string, number>();
    const draws = 40 * all;
    drawAllocations(blocks, { draws, seed: 11 }, (sums) => {
      const key = sums.join(" ");
      counts.set(key, (counts.get(key) ?? 0) + 1);
      return true;
    });
    expect(counts.size).toBe(all);
    const chi2 = [...counts.values()].reduce((sum, count) => sum + (count - 40) ** 2 / 40, 0);
    // Chi-square with so many degrees of freedom: four standard deviations either way.
    expect(Math.abs(chi2 - (all - 1))).toBeLessThan(4 * Math.sqrt(2 * (all - 1)));
  });
});
