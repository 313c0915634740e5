import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import { jonckheere } from "./jonckheere.ts";
import { orderedRearrangementTest } from "./ordered-rearrangement.ts";
import type { PlacedScore } from "./placed-rearrangements.ts";

const units = (groups: number[], scores: number[], blocks?: number[], plots?: string[]): PlacedScore[] =>
  groups.map((group, at) => ({ group, score: scores[at]!, block: String(blocks?.[at] ?? 0), plot: plots?.[at] ?? "" }));
const ask = { seed: 1 };

describe("a declared order", () => {
  test("one of each of three, rising: 2 of 6 ways are as far out, so nothing can be shown", () => {
    expect(orderedRearrangementTest(units([0, 1, 2], [1, 2, 3]), ask)).toEqual({
      p: 2 / 6,
      pMin: 2 / 6,
      rearrangements: 6,
      drawn: null,
    });
  });

  test("two of each of three, rising: 2 of 90", () => {
    const { p, pMin } = orderedRearrangementTest(units([0, 0, 1, 1, 2, 2], [1, 2, 3, 4, 5, 6]), ask);
    expect([p, pMin]).toEqual([2 / 90, 2 / 90]);
  });

  test("without blocks it is the exact Jonckheere-Terpstra test", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 9, maxLength: 9 }), (scores) => {
        const groups = [0, 0, 1, 1, 1, 2, 2, 2, 2];
        const lists = [0, 1, 2].map((group) => scores.filter((_, at) => groups[at] === group));
        expect(orderedRearrangementTest(units(groups, scores), ask).p).toBeCloseTo(
          jonckheere({ groups: lists }).exactP,
          10,
        );
      }),
      { numRuns: 50 },
    );
  });

  test("in blocks and in batches of one treatment it is every rearrangement, counted one by one", () => {
    const { below } = seededRandom(4);
    const groups = [0, 1, 2, 2, 0, 1, 1, 0];
    const blocks = [0, 0, 0, 0, 1, 1, 1, 1];
    for (let round = 0; round < 10; round++) {
      const scores = groups.map(() => below(5));
      const plain = orderedRearrangementTest(units(groups, scores, blocks), ask);
      // An acceptance that refuses nothing goes the slow way.
      const visited = orderedRearrangementTest(units(groups, scores, blocks), { ...ask, accepts: () => true });
      expect(visited.p).toBeCloseTo(plain.p, 10);
      expect(visited.pMin).toBeCloseTo(plain.pMin, 10);
      expect(visited.rearrangements).toBe(plain.rearrangements);
    }
  });

  test("turning the order round changes nothing: both sides count", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 8, maxLength: 8 }), (scores) => {
        const groups = [0, 0, 1, 1, 1, 2, 2, 2];
        const turned = groups.map((group) => 2 - group);
        expect(orderedRearrangementTest(units(turned, scores), ask).p).toBeCloseTo(
          orderedRearrangementTest(units(groups, scores), ask).p,
          10,
        );
      }),
      { numRuns: 40 },
    );
  });

  test("all tied: p is 1", () =>
    expect(orderedRearrangementTest(units([0, 0, 1, 2], [3, 3, 3, 3]), ask)).toMatchObject({ p: 1, pMin: 1 }));
});
