import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { permutationMeans } from "./permutation-means.ts";
import { wilcoxonExact } from "./wilcoxon-exact.ts";
import { wilcoxonStratified } from "./wilcoxon-stratified.ts";

const value = fc.integer({ min: -20, max: 20 }).map((tenths) => tenths / 10);
const group = fc.array(value, { minLength: 1, maxLength: 5 });

describe("permutation of means", () => {
  test.each([
    ["one each", [3], [9], 2, 1],
    ["all alike", [2, 2], [2, 2, 2], 10, 1],
    ["3 against 3 apart", [7, 8, 9], [1, 2, 3], 20, 0.1],
    // 0.1 + 0.2 against 0.3: a comparison of floating sums would lose the tie.
    ["nanometres given in metres", [7e-9, 8e-9, 9e-9], [1e-9, 2e-9, 3e-9], 20, 0.1],
    ["sums that tie in decimals only", [0.1, 0.2], [0.3, 0], 6, 1],
  ])("%s", (_, first, second, allocations, exactP) => {
    const found = permutationMeans({ first, second });
    expect(found.allocations).toBe(allocations);
    expect(found.exactP).toBeCloseTo(exactP, 14);
  });

  test("equals the plain count over all allocations", () => {
    fc.assert(
      fc.property(group, group, (first, second) => {
        const all = [...first, ...second];
        const mean = (first.length * all.reduce((sum, one) => sum + one, 0)) / all.length;
        const sums: number[] = [];
        for (let set = 0; set < 1 << all.length; set++) {
          const chosen = all.filter((_, at) => set & (1 << at));
          if (chosen.length === first.length) sums.push(chosen.reduce((sum, one) => sum + one, 0));
        }
        const observed = first.reduce((sum, one) => sum + one, 0);
        const far = sums.filter((sum) => Math.abs(sum - mean) >= Math.abs(observed - mean) - 1e-9).length;
        expect(permutationMeans({ first, second }).exactP).toBeCloseTo(far / sums.length, 12);
      }),
      { numRuns: 60 },
    );
  });

  test("shifted, stretched or in logarithm-like digits: the same p", () => {
    fc.assert(
      fc.property(group, group, fc.integer({ min: -50, max: 50 }), (first, second, shift) => {
        const changed = (values: number[]) => values.map((one) => Math.PI * one + shift);
        expect(permutationMeans({ first: changed(first), second: changed(second) }).exactP).toBeCloseTo(
          permutationMeans({ first, second }).exactP,
          12,
        );
      }),
    );
  });

  test("too many different sums are refused, not sampled in silence", () => {
    const many = (from: number) => Array.from({ length: 16 }, (_, at) => Math.log(from + at * at));
    expect(() => permutationMeans({ first: many(2), second: many(3) })).toThrow(/^first is .* fewer digits/);
  });
});

describe("stratified rank sum", () => {
  test("one block is the plain rank sum", () => {
    fc.assert(
      fc.property(group, group, (first, second) => {
        const plain = wilcoxonExact({ first, second });
        for (const weights of ["vanElteren", "equal"] as const) {
          const found = wilcoxonStratified({ blocks: [{ first, second }], weights });
          expect(found.exactP).toBeCloseTo(plain.exactP, 12);
          expect(found.exactPGreater).toBeCloseTo(plain.exactPGreater, 12);
        }
      }),
      { numRuns: 50 },
    );
  });

  test("one of each per block is a sign test; tied blocks add nothing", () => {
    const blocks = [1, 2, 3, 4, 5, 6].map((height) => ({ first: [height], second: [0] }));
    expect(wilcoxonStratified({ blocks, weights: "vanElteren" }).exactP).toBeCloseTo(0.03125, 14);
    const withTie = [...blocks, { first: [1], second: [1] }];
    expect(wilcoxonStratified({ blocks: withTie, weights: "vanElteren" }).exactP).toBeCloseTo(0.03125, 14);
  });

  test("blocks may lie anywhere on the scale", () => {
    const blocks = [
      { first: [5, 6, 9], second: [1, 4] },
      { first: [3], second: [2, 2, 1] },
    ];
    const moved = blocks.map(({ first, second }, at) => ({
      first: first.map((one) => one + 100 * at),
      second: second.map((one) => one + 100 * at),
    }));
    expect(wilcoxonStratified({ blocks: moved, weights: "vanElteren" })).toEqual(
      wilcoxonStratified({ blocks, weights: "vanElteren" }),
    );
  });

  test("refuses a block with one treatment", () => {
    expect(() => wilcoxonStratified({ blocks: [{ first: [1, 2], second: [] }], weights: "equal" })).toThrow(
      /^blocks\[0\]\.second is \[\]/,
    );
  });
});
