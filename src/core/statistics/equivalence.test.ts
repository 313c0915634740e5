import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { tTwoSided } from "../numeric/t-distribution.ts";
import { benjaminiHochberg } from "./benjamini-hochberg.ts";
import { dunnett } from "./dunnett.ts";
import { dunnettStepDown } from "./dunnett-step-down.ts";
import { holm } from "./holm.ts";
import { tostPaired } from "./tost-paired.ts";
import { tostRank } from "./tost-rank.ts";
import { tostWelch } from "./tost-welch.ts";

const pValues = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 8 });

describe("adjusted p", () => {
  test.each([
    [[0.03], [0.03], [0.03]],
    [
      [0.01, 0.04, 0.03, 0.005, 0.2],
      [0.04, 0.09, 0.09, 0.025, 0.2],
      [0.025, 0.05, 0.05, 0.025, 0.2],
    ],
    [
      [0, 0.9],
      [0, 0.9],
      [0, 0.9],
    ],
  ])("%j: Holm %j, Benjamini-Hochberg %j", (given, byHolm, byBh) => {
    const close = (found: number[], expected: number[]) =>
      found.forEach((p, at) => {
        expect(p).toBeCloseTo(expected[at]!, 12);
      });
    close(holm({ pValues: given }).adjusted, byHolm);
    close(benjaminiHochberg({ pValues: given }).adjusted, byBh);
  });

  test("keeps the order of the p, never lowers one, stays at most 1; Holm is the stricter", () => {
    fc.assert(
      fc.property(pValues, (given) => {
        const strict = holm({ pValues: given }).adjusted;
        const screen = benjaminiHochberg({ pValues: given }).adjusted;
        for (const [at, p] of given.entries()) {
          expect(screen[at]).toBeGreaterThanOrEqual(p);
          expect(strict[at]).toBeGreaterThanOrEqual(screen[at]! - 1e-12);
          expect(strict[at]).toBeLessThanOrEqual(1);
          for (const [other, q] of given.entries()) if (p < q) expect(strict[at]).toBeLessThanOrEqual(strict[other]!);
        }
      }),
    );
  });

  test.each([[[]], [[0.2, 1.2]], [[Number.NaN]]])("refuses %j", (given) => {
    expect(() => holm({ pValues: given })).toThrow(/^pValues/);
    expect(() => benjaminiHochberg({ pValues: given })).toThrow(/^pValues/);
  });
});

describe("two one-sided tests", () => {
  const first = [10.1, 9.9, 10.3, 10, 9.8];
  const second = [10, 10.2, 9.7, 10.1, 10];
  const margins = { marginLower: -1, marginUpper: 1, alpha: 0.05 };

  test("equivalent exactly when the interval at 1 - 2 alpha lies inside the margin", () => {
    const margin = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(margin, margin, (below, above) => {
        const given = { marginLower: -below, marginUpper: above, alpha: 0.05 };
        for (const found of [
          tostWelch({ first, second, ...given }),
          tostPaired({ differences: first.map((one, at) => one - second[at]!), ...given }),
        ])
          expect(found.equivalent).toBe(found.intervalLower >= -below && found.intervalUpper <= above);
      }),
    );
  });

  test("swap the groups and turn the margin: the p change places", () => {
    const one = tostWelch({ first, second, ...margins, marginUpper: 0.4 });
    const other = tostWelch({ first: second, second: first, alpha: 0.05, marginLower: -0.4, marginUpper: 1 });
    expect(other.pUpper).toBeCloseTo(one.pLower, 12);
    expect(other.pLower).toBeCloseTo(one.pUpper, 12);
  });

  test("2 against 2 by ranks: no margin helps; 3 against 3 just reaches 0.05", () => {
    const wide = { marginLower: -99, marginUpper: 99, alpha: 0.05 };
    expect(tostRank({ first: [1, 2], second: [1, 3], ...wide })).toMatchObject({
      equivalent: false,
      intervalLower: null,
    });
    expect(tostRank({ first: [1, 2, 3], second: [1, 3, 4], ...wide })).toMatchObject({ equivalent: true });
  });

  test("a shift that makes ties in decimals: 0.3 + 0.6 and 0.9", () => {
    const shifted = { marginLower: -0.6, marginUpper: 0.6, alpha: 0.05 };
    const tenths = tostRank({ first: [0.3], second: [0.9], ...shifted });
    const whole = tostRank({ first: [3], second: [9], marginLower: -6, marginUpper: 6, alpha: 0.05 });
    expect(tenths.pLower).toBe(whole.pLower);
  });

  test.each([
    ["margins not in order", { ...margins, marginLower: 1 }, /^marginUpper is 1/],
    ["an alpha without an interval", { ...margins, alpha: 0.5 }, /^alpha is 0\.5/],
  ])("refuses %s", (_, given, message) => {
    expect(() => tostWelch({ first, second, ...given })).toThrow(message);
    expect(() => tostRank({ first, second, ...given })).toThrow(message);
  });

  test("refuses values without scatter", () => {
    expect(() => tostPaired({ differences: [0.1, 0.1], ...margins })).toThrow(/^differences is/);
    expect(() => tostWelch({ first: [1, 1], second: [1, 1], ...margins })).toThrow(/^first is/);
  });
});

describe("Dunnett against one control", () => {
  const control = [3.1, 2.8, 3.4];
  const treatments = [[3.6, 3.9, 3.2], [4.4, 4.1, 4.8, 4.0], [3.0]];

  test("one treatment: the plain t test with pooled scatter", () => {
    const { t, df, adjustedP } = dunnett({ control, treatments: [treatments[0]!] });
    expect(adjustedP[0]).toBeCloseTo(tTwoSided(t[0]!, df), 9);
  });

  test("the interval excludes 0 exactly where the adjusted p is below 5 %", () => {
    const found = dunnett({ control, treatments, confidence: 0.95 });
    const { adjustedP, critical, t } = found as Extract<typeof found, { critical: number }>;
    for (const [at, one] of t.entries()) expect(Math.abs(one) > critical).toBe(adjustedP[at]! < 0.05);
  });

  test("between the p of one comparison and Bonferroni; step down is never weaker", () => {
    const { t, df, adjustedP } = dunnett({ control, treatments });
    const stepDown = dunnettStepDown({ control, treatments }).adjustedP;
    for (const [at, p] of adjustedP.entries()) {
      const alone = tTwoSided(t[at]!, df);
      expect(p).toBeGreaterThan(alone);
      expect(p).toBeLessThanOrEqual(Math.min(1, treatments.length * alone) + 1e-12);
      expect(stepDown[at]).toBeLessThanOrEqual(p + 1e-12);
      expect(stepDown[at]).toBeGreaterThanOrEqual(alone - 1e-9);
    }
  });

  test("treatments in another order: the same p in that order", () => {
    const turned = dunnettStepDown({ control, treatments: [...treatments].reverse() }).adjustedP;
    const straight = dunnettStepDown({ control, treatments }).adjustedP;
    for (const [at, p] of [...turned].reverse().entries()) expect(p).toBeCloseTo(straight[at]!, 9);
  });

  test.each([
    ["one coupon each", { control: [1], treatments: [[2], [3]] }, /^treatments is \[1,1,1\]/],
    ["no treatments", { control: [1, 2], treatments: [] }, /^treatments is \[\]/],
    ["no scatter", { control: [1, 1], treatments: [[2, 2]] }, /^control is/],
  ])("refuses %s", (_, input, message) => expect(() => dunnett(input)).toThrow(message));
});
