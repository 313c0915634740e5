import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cliffsDelta } from "./cliffs-delta.ts";
import { hodgesLehmann } from "./hodges-lehmann.ts";
import { wilcoxonExact } from "./wilcoxon-exact.ts";

const grade = fc.integer({ min: 0, max: 10 });
const grades = (max: number) => fc.array(grade, { minLength: 1, maxLength: max });

describe("exact rank-sum test", () => {
  test.each([
    // first, second, u, two-sided p: counted by hand
    ["one each", [10], [0], 1, 1],
    ["2 against 2 apart", [5, 6], [1, 2], 4, 2 / 6],
    ["3 against 3 apart", [5, 6, 7], [1, 2, 3], 9, 0.1],
    // Distance rule, not doubling: only the single allocation is as far.
    ["1 against 5, ties: not doubled", [1], [2, 3, 3, 3, 3], 0, 1 / 6],
    ["all tied", [10, 10, 10], [10, 10], 3, 1],
    ["decimals that tie", [0.3], [0.3, 0.1 + 0.1], 1.5, 1],
  ])("%s", (_, first, second, u, exactP) => {
    const found = wilcoxonExact({ first, second });
    expect(found.u).toBe(u);
    expect(found.exactP).toBeCloseTo(exactP, 12);
  });

  test("all tied: mid-p one half, no asymptotic p", () => {
    expect(wilcoxonExact({ first: [3], second: [3, 3] })).toMatchObject({ exactP: 1, midP: 0.5, asymptoticP: null });
  });

  test("equals the plain count over all allocations, with ties and unequal groups", () => {
    fc.assert(
      fc.property(grades(5), grades(5), (first, second) => {
        const all = [...first, ...second];
        // Twice u for a set of places: 2 per pair won, 1 per pair tied.
        const doubleU = (places: number[]) => {
          const rest = all.filter((_, at) => !places.includes(at));
          return places.reduce(
            (sum, at) => rest.reduce((part, value) => part + 1 + Math.sign(all[at]! - value), sum),
            0,
          );
        };
        const values: number[] = [];
        for (let set = 0; set < 1 << all.length; set++) {
          const places = [...all.keys()].filter((at) => set & (1 << at));
          if (places.length === first.length) values.push(doubleU(places));
        }
        const observed = doubleU([...first.keys()]);
        const mean = first.length * second.length;
        const share = (far: (u: number) => boolean) => values.filter(far).length / values.length;
        const found = wilcoxonExact({ first, second });
        expect(2 * found.u).toBe(observed);
        expect(found.exactP).toBeCloseTo(
          share((u) => Math.abs(u - mean) >= Math.abs(observed - mean)),
          12,
        );
        expect(found.exactPGreater).toBeCloseTo(
          share((u) => u >= observed),
          12,
        );
        expect(found.exactPLess).toBeCloseTo(
          share((u) => u <= observed),
          12,
        );
      }),
      { numRuns: 60 },
    );
  });

  test("swapped groups and a rising change of scale leave p as it is", () => {
    fc.assert(
      fc.property(grades(8), grades(8), (first, second) => {
        const one = wilcoxonExact({ first, second });
        const swapped = wilcoxonExact({ first: second, second: first });
        expect(swapped.exactP).toBeCloseTo(one.exactP, 12);
        expect(swapped.exactPGreater).toBeCloseTo(one.exactPLess, 12);
        expect(swapped.u).toBe(first.length * second.length - one.u);
        const curved = (values: number[]) => values.map((value) => Math.exp(value) - 7);
        expect(wilcoxonExact({ first: curved(first), second: curved(second) })).toEqual(one);
      }),
    );
  });

  test("20 against 20 with ties is still exact and near the asymptotic p", () => {
    const first = Array.from({ length: 20 }, (_, at) => at % 7);
    const second = Array.from({ length: 20 }, (_, at) => (at % 7) + 2);
    const { exactP, asymptoticP } = wilcoxonExact({ first, second });
    expect(exactP).toBeGreaterThan(0);
    expect(Math.abs(exactP - asymptoticP!)).toBeLessThan(0.002);
  });

  test.each([
    ["an empty group", { first: [], second: [1] }, /^first is \[\]; expected a list/],
    ["a value that is not finite", { first: [1, Number.NaN], second: [1] }, /^first\[1\] is NaN/],
  ])("refuses %s", (_, input, message) => expect(() => wilcoxonExact(input)).toThrow(message));
});

describe("Hodges-Lehmann shift", () => {
  test("3 against 3 reaches 90 % and no more", () => {
    const groups = { first: [5, 6, 7], second: [1, 2, 3.5] };
    expect(hodgesLehmann({ ...groups, confidence: 0.9 })).toMatchObject({ estimate: 4, lower: 1.5, upper: 6 });
    const tooMuch = hodgesLehmann({ ...groups, confidence: 0.95 });
    expect(tooMuch).toMatchObject({ estimate: 4, lower: null, upper: null });
    expect(tooMuch.achievedConfidence).toBeCloseTo(0.9, 12);
  });

  test("the untied shifts that the exact test does not reject lie inside the interval", () => {
    const first = [12.1, 15.3, 14.2, 13.8];
    const second = [9.7, 11.2, 12.5, 10.4];
    const { lower, upper, achievedConfidence } = hodgesLehmann({ first, second, confidence: 0.95 });
    const pAfter = (shift: number) => wilcoxonExact({ first: first.map((value) => value - shift), second }).exactP;
    expect(pAfter(lower! + 0.01)).toBeGreaterThan(1 - achievedConfidence);
    expect(pAfter(lower! - 0.01)).toBeLessThanOrEqual(1 - achievedConfidence + 1e-12);
    expect(pAfter(upper! + 0.01)).toBeLessThanOrEqual(1 - achievedConfidence + 1e-12);
  });

  test("swapped groups turn the estimate and the interval; a shift moves them along", () => {
    fc.assert(
      fc.property(grades(6), grades(6), fc.integer({ min: -5, max: 5 }), (first, second, shift) => {
        const one = hodgesLehmann({ first, second, confidence: 0.9 });
        const other = hodgesLehmann({ first: second, second: first, confidence: 0.9 });
        expect(other.estimate).toBeCloseTo(-one.estimate, 12);
        expect(other.lower === null ? null : -other.lower + 0).toBe(one.upper === null ? null : one.upper + 0);
        const moved = hodgesLehmann({ first: first.map((value) => value + shift), second, confidence: 0.9 });
        expect(moved.estimate).toBeCloseTo(one.estimate + shift, 12);
      }),
    );
  });

  test("refuses 95 for 95 %", () => {
    expect(() => hodgesLehmann({ first: [1], second: [2], confidence: 95 })).toThrow(
      /^confidence is 95; expected a fraction/,
    );
  });
});

describe("Cliff's delta", () => {
  test.each([
    [[5, 6, 7], [1, 2], 1],
    [[3, 3], [3], 0],
    [[9, 9, 10, 8], [6, 7, 8, 9], 0.6875],
  ])("%j against %j is %d", (first, second, delta) => {
    expect(cliffsDelta({ first, second })).toEqual({ delta, superiority: (delta + 1) / 2 });
  });

  test("superiority is u out of all pairs", () => {
    fc.assert(
      fc.property(grades(8), grades(8), (first, second) => {
        const pairs = first.length * second.length;
        expect(cliffsDelta({ first, second }).superiority).toBeCloseTo(wilcoxonExact({ first, second }).u / pairs, 12);
      }),
    );
  });
});
