import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { InspectionInterval } from "./inspection-interval.ts";
import { type BlockedInterval, logRankPermutation } from "./log-rank-permutation.ts";
import { logRankScores } from "./log-rank-scores.ts";

const between = (leftDays: number, rightDays: number | null, block?: number): BlockedInterval =>
  block === undefined ? { leftDays, rightDays } : { leftDays, rightDays, block };
const clean = (leftDays: number) => between(leftDays, null);
const p = (...groups: BlockedInterval[][]) => logRankPermutation({ groups, stratified: false }).exactP;

const weeks = fc.integer({ min: 0, max: 5 });
const coupon = fc.tuple(weeks, fc.boolean()).map(([week, never]) => between(7 * week, never ? null : 7 * week + 7));
const group = (max: number) => fc.array(coupon, { minLength: 1, maxLength: max });

describe("log-rank scores", () => {
  test("by hand: half rust in the first week, half stay clean", () => {
    // S falls from 1 to 1/2: (0 - 1/2 ln 1/2) / (1/2) = ln 2, and ln 1/2 for the clean.
    const scores = logRankScores([between(0, 7), between(0, 7), clean(42), clean(42)]);
    for (const [at, expected] of [Math.LN2, Math.LN2, -Math.LN2, -Math.LN2].entries())
      expect(scores[at]).toBeCloseTo(expected, 12);
  });

  test("add up to 0, stay below 1 and fall with later rust", () => {
    fc.assert(
      fc.property(group(20), (coupons) => {
        const scores = logRankScores(coupons);
        expect(Math.abs(scores.reduce((sum, score) => sum + score, 0))).toBeLessThan(1e-7);
        expect(Math.max(...scores)).toBeLessThan(1);
        const end = (one: InspectionInterval) => one.rightDays ?? 1000;
        for (const [i, a] of coupons.entries())
          for (const [j, b] of coupons.entries())
            if (a.leftDays < b.leftDays && end(a) < end(b)) expect(scores[i]).toBeGreaterThanOrEqual(scores[j]! - 1e-9);
      }),
    );
  });
});

describe("log-rank permutation test, small trials", () => {
  const early = [between(0, 7), between(7, 14), between(7, 14), between(14, 21)];
  test.each([
    ["one coupon each shows nothing", p([between(0, 7)], [clean(42)]), 1],
    ["one against five", p([between(0, 7)], [clean(42), clean(42), clean(42), clean(42), clean(42)]), 1 / 6],
    ["3 against 3 wholly apart", p(early.slice(0, 3), [clean(42), clean(42), clean(42)]), 0.1],
    ["4 against 4 wholly apart", p(early, [clean(42), clean(42), clean(42), clean(42)]), 2 / 70],
    ["none rusted", p([clean(42), clean(42)], [clean(42), clean(42)]), 1],
    ["all rusted by the first look", p([between(0, 7), between(0, 7)], [between(0, 7)]), 1],
  ])("%s", (_, found, expected) => expect(found).toBeCloseTo(expected, 12));

  test("a block with one treatment only has one allocation and adds nothing", () => {
    const first = [between(0, 7, 1), between(7, 14, 2), between(0, 7, 3)];
    const second = [between(21, 28, 1), between(28, 35, 2)];
    const found = logRankPermutation({ groups: [first, second], stratified: true });
    expect(found.allocations).toBe(4);
    expect(found.exactP).toBe(0.5);
  });

  test("six pairs, all one way: 2 / 2^6", () => {
    const first = [1, 2, 3, 4, 5, 6].map((block) => between(0, 7, block));
    const second = [1, 2, 3, 4, 5, 6].map((block) => between(7 * block, 7 * block + 7, block));
    expect(logRankPermutation({ groups: [first, second], stratified: true }).exactP).toBe(0.03125);
  });

  test("more than 300 000 allocations are counted, not enumerated", () => {
    const many = Array.from({ length: 11 }, (_, week) => between(7 * week, 7 * week + 7));
    const found = logRankPermutation({ groups: [many, many], stratified: false });
    expect(found.allocations).toBe(705_432);
    expect(found.exactP).toBeNull();
    expect(found.asymptoticP).toBeCloseTo(1, 12);
  });
});

describe("log-rank permutation test, laws", () => {
  test("swap the groups: the sums turn, p stays", () => {
    fc.assert(
      fc.property(group(5), group(6), (a, b) => {
        const one = logRankPermutation({ groups: [a, b], stratified: false });
        const other = logRankPermutation({ groups: [b, a], stratified: false });
        expect(other.exactP).toBe(one.exactP);
        expect(other.groupScoreSums[1]).toBeCloseTo(one.groupScoreSums[0]!, 8);
        expect(other.chi2).toBeCloseTo(one.chi2, 8);
      }),
    );
  });

  test("renumber three groups and their coupons: nothing changes", () => {
    fc.assert(
      fc.property(group(3), group(3), group(2), (a, b, c) => {
        const one = logRankPermutation({ groups: [a, b, c], stratified: false });
        const other = logRankPermutation({ groups: [[...c].reverse(), a, [...b].reverse()], stratified: false });
        expect(other.exactP).toBeCloseTo(one.exactP!, 12);
        expect(other.chi2).toBeCloseTo(one.chi2, 7);
      }),
      { numRuns: 40 },
    );
  });

  test("two groups: the share of allocations whose sum is at least as far from 0", () => {
    fc.assert(
      fc.property(group(5), group(5), (a, b) => {
        const scores = logRankScores([...a, ...b]);
        let all = 0;
        let far = 0;
        const observed = Math.abs(scores.slice(0, a.length).reduce((sum, score) => sum + score, 0));
        for (let set = 0; set < 1 << scores.length; set++) {
          const chosen = scores.filter((_, at) => set & (1 << at));
          if (chosen.length !== a.length) continue;
          all++;
          if (Math.abs(chosen.reduce((sum, score) => sum + score, 0)) >= observed - 1e-9) far++;
        }
        expect(p(a, b)).toBeCloseTo(far / all, 12);
      }),
      { numRuns: 60 },
    );
  });

  test("one block for all is no block", () => {
    fc.assert(
      fc.property(group(4), group(4), (a, b) => {
        const blocked = [a, b].map((coupons) => coupons.map((one) => ({ ...one, block: "row" })));
        expect(logRankPermutation({ groups: blocked, stratified: true })).toEqual(
          logRankPermutation({ groups: [a, b], stratified: false }),
        );
      }),
      { numRuns: 40 },
    );
  });
});

describe("log-rank permutation test refuses", () => {
  const one = [between(0, 7)];
  test.each([
    ["one group", [one], false, /^groups is .* expected a list of 2/],
    ["an empty group", [one, []], false, /^groups\[1\] is \[\]/],
    ["blocks asked for and not given", [one, one], true, /^groups\[0\]\[0\]\.block is missing/],
  ])("%s", (_, groups, stratified, message) => {
    expect(() => logRankPermutation({ groups, stratified })).toThrow(message);
  });
});
