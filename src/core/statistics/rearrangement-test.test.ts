import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { logRankPermutation } from "./log-rank-permutation.ts";
import { logRankScores } from "./log-rank-scores.ts";
import { doubledMidranks } from "./midranks.ts";
import {
  type LabelledScore,
  rearrangementTest,
  smallestRearrangementP,
  smallestUntiedP,
} from "./rearrangement-test.ts";
import { wilcoxonExact } from "./wilcoxon-exact.ts";

/** Two groups wholly apart: the first low, the second high in every block. */
function apart(perBlock: number, blocks: number): LabelledScore[] {
  return Array.from({ length: blocks }, (_, block) =>
    Array.from({ length: 2 * perBlock }, (_, at) => ({
      score: at + block / 7,
      group: at < perBlock ? 0 : 1,
      block: `block ${block}`,
    })),
  ).flat();
}

const pairs = { statistic: "pairs", seed: 1 } as const;

function labelled(groups: number[][]): LabelledScore[] {
  return groups.flatMap((scores, group) => scores.map((score) => ({ score, group, block: "" })));
}

describe("smallest p of a layout", () => {
  test.each([
    // per block, blocks, p          how
    [1, 1, 1, "one coupon each: both rearrangements are as far apart"],
    [2, 1, 2 / 6, "2 of C(4,2)"],
    [3, 1, 0.1, "2 of C(6,3)"],
    [4, 1, 2 / 70, "2 of C(8,4)"],
    [5, 1, 2 / 252, "2 of C(10,5)"],
    [6, 1, 2 / 924, "2 of C(12,6)"],
    [2, 3, 2 / 6 ** 3, "3 blocks of 2"],
    [3, 2, 2 / 20 ** 2, "2 blocks of 3"],
    [1, 3, 0.25, "2 of 2^3"],
    [1, 4, 0.125, "2 of 2^4"],
    [1, 5, 0.0625, "2 of 2^5"],
    [1, 6, 0.03125, "2 of 2^6"],
    [1, 8, 2 / 2 ** 8, "2 of 2^8"],
  ])("%d of each in %d blocks: %d (%s)", (perBlock, blocks, p) => {
    const units = apart(perBlock, blocks);
    expect(smallestRearrangementP(units)).toBeCloseTo(p, 12);
    expect(rearrangementTest(units, pairs).p).toBeCloseTo(p, 12);
    const sizes = Array.from({ length: blocks }, (): [number, number] => [perBlock, perBlock]);
    expect(smallestUntiedP(sizes)).toBeCloseTo(p, 12);
  });

  test("ties raise it: of 1 2 2 2 two groups of two can only get {1, 2} apart from {2, 2}, and all do", () =>
    expect(
      smallestRearrangementP(
        labelled([
          [1, 2],
          [2, 2],
        ]),
      ),
    ).toBe(1));

  test("unequal groups with skewed scores: only one of five rearrangements is the farthest", () => {
    // 0 0 0 0 10: the mean is 2, a single unit lies 8 above it or 2 below.
    expect(smallestRearrangementP(labelled([[10], [0, 0, 0, 0]]))).toBeCloseTo(0.2, 12);
    expect(rearrangementTest(labelled([[10], [0, 0, 0, 0]]), pairs).p).toBeCloseTo(0.2, 12);
    expect(rearrangementTest(labelled([[0], [10, 0, 0, 0]]), pairs).p).toBe(1);
  });

  test("a block with one treatment only, and a tied block, add nothing", () => {
    const alone = [...apart(1, 6), { score: 99, group: 0, block: "alone" }];
    expect(smallestRearrangementP(alone)).toBeCloseTo(2 / 64, 12);
    const tied = [...apart(1, 5), { score: 3, group: 0, block: "tied" }, { score: 3, group: 1, block: "tied" }];
    expect(smallestRearrangementP(tied)).toBeCloseTo(2 / 32, 12);
  });

  test("equals the least p of any rearrangement", () => {
    const sizes = fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }));
    const tieable = fc.integer({ min: 0, max: 4 });
    fc.assert(
      fc.property(sizes, fc.array(tieable, { minLength: 8, maxLength: 8 }), ([n1, n2], scores) => {
        const taken = scores.slice(0, n1 + n2);
        let least = 1;
        for (let mask = 0; mask < 2 ** taken.length; mask++) {
          const inFirst = taken.filter((_, at) => mask & (1 << at));
          if (inFirst.length !== n1) continue;
          const inSecond = taken.filter((_, at) => !(mask & (1 << at)));
          least = Math.min(least, rearrangementTest(labelled([inFirst, inSecond]), pairs).p);
        }
        expect(smallestRearrangementP(labelled([taken.slice(0, n1), taken.slice(n1)]))).toBeCloseTo(least, 10);
      }),
      { numRuns: 40 },
    );
  });
});

describe("rearrangement test", () => {
  test("two groups of looks: the log-rank permutation test, with blocks too", () => {
    const looks = [
      [0, 7, "a"],
      [7, 14, "a"],
      [14, 21, "b"],
      [7, 14, "b"],
      [21, null, "c"],
      [14, 21, "a"],
      [21, null, "a"],
      [21, null, "b"],
      [0, 7, "c"],
      [14, 21, "c"],
    ] as const;
    const times = looks.map(([leftDays, rightDays, block]) => ({ leftDays, rightDays, block }));
    const groups = [times.slice(0, 5), times.slice(5)];
    for (const stratified of [false, true]) {
      const scores = logRankScores(times);
      const units = times.map(({ block }, at) => ({
        score: scores[at]!,
        group: at < 5 ? 0 : 1,
        block: stratified ? block : "",
      }));
      const { exactP } = logRankPermutation({ groups, stratified });
      expect(rearrangementTest(units, pairs).p).toBeCloseTo(exactP!, 12);
    }
  });

  test("two groups of mid-ranks: the exact rank-sum test, ties and unequal groups", () => {
    const value = fc.integer({ min: 0, max: 6 });
    const group = fc.array(value, { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(group, group, (first, second) => {
        const ranks = doubledMidranks([...first, ...second]);
        const units = labelled([ranks.slice(0, first.length), ranks.slice(first.length)]);
        expect(rearrangementTest(units, pairs).p).toBeCloseTo(wilcoxonExact({ first, second }).exactP, 10);
      }),
      { numRuns: 60 },
    );
  });

  test("three treatments by hand: one high, two low, two units each", () => {
    // Scores 1 2 | 3 4 | 9 10. 90 ways to deal them; the difference of means is largest when {9, 10} faces {1, 2}.
    const units = labelled([
      [1, 2],
      [3, 4],
      [9, 10],
    ]);
    // Farthest: the pair {1, 2} in one group, {9, 10} in another: 3 x 2 = 6 of 90.
    expect(rearrangementTest(units, pairs).p).toBeCloseTo(6 / 90, 12);
    // Against group 0 only: {1, 2} or {9, 10} in group 0, the other pair in one of two groups: 4 of 90.
    expect(rearrangementTest(units, { statistic: "control", seed: 1 }).p).toBeCloseTo(4 / 90, 12);
  });

  test("too many to count: drawn, never 0, the same for the same seed, close to the truth", () => {
    const units = labelled([0, 1].map((group) => Array.from({ length: 12 }, (_, at) => 2 * at + group * 9)));
    const drawn = rearrangementTest(units, pairs);
    expect(drawn.drawn).toBe(19_999);
    expect(rearrangementTest(units, pairs)).toEqual(drawn);
    const { exactP } = wilcoxonExact({
      first: units.slice(0, 12).map((one) => one.score),
      second: units.slice(12).map((one) => one.score),
    });
    // Means of evenly spaced scores and of their ranks order the rearrangements nearly alike.
    expect(Math.abs(drawn.p - exactP)).toBeLessThan(0.01);
    const far = labelled([0, 1].map((group) => Array.from({ length: 12 }, (_, at) => at + group * 100)));
    expect(rearrangementTest(far, pairs).p).toBe(1 / 20_000);
  });

  test("neither the order of the units nor the names of the groups change p", () => {
    const units = fc.array(
      fc.record({
        score: fc.integer({ min: 0, max: 5 }),
        group: fc.constantFrom(0, 1, 2),
        block: fc.constantFrom("a", "b"),
      }),
      { minLength: 4, maxLength: 9 },
    );
    fc.assert(
      fc.property(units, (some) => {
        const all: LabelledScore[] = [...some, ...[0, 1, 2].map((group) => ({ score: group, group, block: "a" }))];
        const { p } = rearrangementTest(all, pairs);
        expect(rearrangementTest([...all].reverse(), pairs).p).toBeCloseTo(p, 12);
        const renamed = all.map((one) => ({ ...one, group: 2 - one.group }));
        expect(rearrangementTest(renamed, pairs).p).toBeCloseTo(p, 12);
        expect(p).toBeGreaterThan(0);
      }),
      { numRuns: 40 },
    );
  });
});
