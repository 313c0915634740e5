import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { anovaOneWay } from "./anova-one-way.ts";
import { blockAnova } from "./block-anova.ts";
import { brownForsythe, median } from "./brown-forsythe.ts";
import { detectableDifference } from "./detectable-difference.ts";
import { friedman } from "./friedman.ts";
import { grubbs } from "./grubbs.ts";
import { linearRegression } from "./linear-regression.ts";
import { pairedT } from "./paired-t.ts";
import { gamesHowell, tukeyHsd } from "./pairs-of-means.ts";
import { shapiroWilk } from "./shapiro-wilk.ts";
import { splitPlotAnova } from "./split-plot-anova.ts";
import { summary } from "./summary.ts";
import { welchAnova } from "./welch-anova.ts";
import { welchT } from "./welch-t.ts";

const confidence = 0.95;
const value = fc.integer({ min: -500, max: 500 }).map((one) => one / 10);
const group = (least: number) => fc.array(value, { minLength: least, maxLength: 6 });
/** Values on which no test has anything to divide by. */
const scatters = (values: number[]) => values.some((one) => one !== values[0]);

describe("one group", () => {
  test("20.1 22.4 19.5 23.0 by hand: mean 21.25, squares 8.77, SD 1.7098", () => {
    const found = summary({ values: [20.1, 22.4, 19.5, 23], confidence });
    expect(found.mean).toBeCloseTo(21.25, 12);
    expect(found.sd).toBeCloseTo(Math.sqrt(8.77 / 3), 12);
    expect(found.halfWidth).toBeCloseTo(2.720634861, 8);
    expect(found.geometricMean).toBeCloseTo(21.19832913, 7);
    expect(found.geometricSd).toBeCloseTo(1.083957925, 8);
  });

  test("a mean of 0 has no coefficient of variation, a value of 0 no geometric mean", () => {
    expect(summary({ values: [-1, 1], confidence })).toMatchObject({
      mean: 0,
      cvPercent: null,
      geometricMean: null,
      geometricSd: null,
    });
    expect(summary({ values: [0, 2], confidence })).toMatchObject({ geometricMean: null });
  });

  test("Grubbs: the stray of eight mass readings (NIST handbook), and the far value of three", () => {
    const found = grubbs({ values: [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57], alpha: 0.05 });
    expect(found).toMatchObject({ index: 7, outlier: true });
    expect(found.g).toBeCloseTo(2.4687646112, 9);
    expect(found.critical).toBeCloseTo(2.1266450872, 9);
    expect(grubbs({ values: [1, 1.1, 9], alpha: 0.05 }).index).toBe(2);
    // all others alike: g is as large as it can be, and p is exactly 0
    expect(grubbs({ values: [5, 5, 5, 9], alpha: 0.05 })).toMatchObject({ g: 1.5, pBonferroni: 0, outlier: true });
  });

  test.each([
    // values                                                    w          p          R 4.2 shapiro.test
    [[1, 1.4, 3.9], 0.851214575, 0.24370369],
    [[148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236], 0.788814695, 0.00670381],
    [[0.1, 0.2, 0.2, 0.3, 0.5, 0.9, 1.4, 2.8, 5.5, 11, 23], 0.650012802, 0.00010778],
  ])("Shapiro and Wilk of %j: %d, p %d", (values, w, p) => {
    const found = shapiroWilk({ values });
    expect(found.w).toBeCloseTo(w, 6);
    expect(found.p / p).toBeCloseTo(1, 3);
  });

  test("evenly spaced values look normal, in any order and unit", () => {
    const found = shapiroWilk({ values: [1, 2, 3, 4, 5, 6, 7] });
    expect(found.p).toBeGreaterThan(0.9);
    expect(shapiroWilk({ values: [70, 10, 50, 20, 60, 40, 30] }).w).toBeCloseTo(found.w, 12);
  });
});

describe("two groups", () => {
  test("unequal groups: 3 against 5 (computed with R 4.2)", () => {
    const found = welchT({ a: [8.1, 9.4, 7.7], b: [12.2, 10.9, 15.3, 11.8, 13.1] });
    expect(found.t).toBeCloseTo(-4.69314057, 7);
    expect(found.df).toBeCloseTo(5.994915807, 7);
    expect(found.p).toBeCloseTo(0.00335736985, 9);
  });

  test("one group without scatter: the other's degrees of freedom", () => {
    expect(welchT({ a: [5, 5, 5], b: [6, 7, 8] }).df).toBeCloseTo(2, 12);
  });

  test("swapping turns t and keeps p; two groups of Welch's analysis are its square", () => {
    fc.assert(
      fc.property(group(2), group(2), (a, b) => {
        fc.pre(scatters(a) && scatters(b));
        const one = welchT({ a, b });
        const other = welchT({ a: b, b: a });
        expect(other.t).toBeCloseTo(-one.t, 9);
        expect(other.p).toBeCloseTo(one.p, 12);
        const analysis = welchAnova({ groups: [a, b] });
        expect(Math.abs(analysis.f - one.t ** 2)).toBeLessThan(1e-9 * Math.max(1, analysis.f));
        expect(analysis.df2).toBeCloseTo(one.df, 8);
      }),
    );
  });

  test("paired: 3.1 4.2 against 2.2 2.9 has differences 0.9 and 1.3: t = 1.1 / 0.2", () => {
    const found = pairedT({ a: [3.1, 4.2], b: [2.2, 2.9], confidence });
    expect(found).toMatchObject({ df: 1 });
    expect(found.t).toBeCloseTo(5.5, 10);
    expect(found.p).toBeCloseTo((2 / Math.PI) * Math.atan(1 / 5.5), 12); // t with 1 df is Cauchy's
  });

  test("what three or five coupons a side can show", () => {
    expect(detectableDifference({ nPerGroup: 3, alpha: 0.05, power: 0.8 })).toBeCloseTo(3.07089, 4);
    expect(detectableDifference({ nPerGroup: 5, alpha: 0.05, power: 0.8 })).toBeCloseTo(2.02444, 4);
    expect(detectableDifference({ nPerGroup: 20, alpha: 0.05, power: 0.8 })).toBeCloseTo(0.909, 3);
  });
});

describe("several groups", () => {
  test("NIST StRD AtmWtAg in small: seven shared digits do not eat the scatter", () => {
    const small = [
      [1, 2, 3],
      [2, 3, 4, 5],
      [7, 9],
    ];
    const shifted = small.map((one) => one.map((x) => 107_000_000 + x));
    const plain = anovaOneWay({ groups: small });
    const far = anovaOneWay({ groups: shifted });
    expect(far.ssWithin).toBe(plain.ssWithin);
    expect(far.f).toBeCloseTo(plain.f, 12);
    expect(plain.ssWithin).toBeCloseTo(2 + 5 + 2, 12);
  });

  test("with two groups F is the square of the pooled t, and Tukey's p is its p", () => {
    const groups = [
      [5.1, 6, 5.6],
      [7.2, 8.1, 7.7, 6.9],
    ];
    const { p } = anovaOneWay({ groups });
    expect(tukeyHsd({ groups, confidence }).pairs[0]!.p).toBeCloseTo(p, 9);
  });

  test("Tukey on unequal groups: an interval that leaves out 0 goes with p below 0.05", () => {
    const groups = [
      [5.1, 6.0, 5.6],
      [7.2, 8.1],
      [9.8, 8.9, 9.4, 9.1],
      [5.9, 6.6, 6.1],
    ];
    const { pairs } = tukeyHsd({ groups, confidence });
    expect(pairs.map(({ first, second }) => `${first}-${second}`)).toEqual(["0-1", "0-2", "0-3", "1-2", "1-3", "2-3"]);
    for (const { lower, upper, p } of pairs) expect(lower > 0 || upper < 0).toBe(p < 0.05);
  });

  test("Games and Howell of two groups is Welch's t", () => {
    const [a, b] = [
      [12.1, 11.4, 13, 12.6],
      [14.9, 15.8, 13.7],
    ];
    expect(gamesHowell({ groups: [a!, b!], confidence }).pairs[0]!.p).toBeCloseTo(welchT({ a: a!, b: b! }).p, 9);
  });

  test("Brown and Forsythe look at scatter only: shifting a group changes nothing", () => {
    const groups = [
      [1, 2, 4, 8],
      [3, 3.5, 4.5],
      [10, 20, 15],
    ];
    const found = brownForsythe({ groups });
    const shifted = brownForsythe({ groups: [groups[0]!, groups[1]!.map((x) => x + 64), groups[2]!] });
    expect(shifted.f).toBeCloseTo(found.f, 10);
    expect([median([3, 1, 2]), median([4, 1, 3, 2])]).toEqual([2, 2.5]);
  });
});

describe("a line", () => {
  test("three points by hand: x 1 2 4, y 2 2.9 5.2", () => {
    const found = linearRegression({ x: [1, 2, 4], y: [2, 2.9, 5.2], confidence, atX: 3 });
    expect(found.slope).toBeCloseTo(151 / 140, 12);
    expect(found.intercept).toBeCloseTo(0.85, 12);
    expect(found).toMatchObject({ df: 1 });
  });

  test("the slope's t is the same the other way round", () => {
    const x = [2, 4, 6, 8, 10];
    const y = [4.1, 8.3, 11.9, 16.4, 20.1];
    expect(linearRegression({ x: y, y: x, confidence }).t).toBeCloseTo(linearRegression({ x, y, confidence }).t, 9);
  });
});

describe("no scatter is refused, also when it is the rounding of decimal fractions", () => {
  test.each([
    [
      "groups",
      () =>
        anovaOneWay({
          groups: [
            [0.1, 0.1, 0.1],
            [0.3, 0.3, 0.3],
          ],
        }),
    ],
    ["groups", () => anovaOneWay({ groups: [[1], [2], [3]] })],
    ["groups", () => anovaOneWay({ groups: [[1, 2, 3]] })],
    ["groups[1]", () => anovaOneWay({ groups: [[1, 2], []] })],
    [
      "groups[0]",
      () =>
        welchAnova({
          groups: [
            [0.1, 0.1, 0.1],
            [2, 3, 4],
          ],
        }),
    ],
    [
      "groups",
      () =>
        gamesHowell({
          groups: [
            [1, 1],
            [2, 2],
          ],
          confidence,
        }),
    ],
    [
      "groups",
      () =>
        brownForsythe({
          groups: [
            [7.24, 3.78],
            [7.81, 8.03],
          ],
        }),
    ],
    [
      "rows",
      () =>
        blockAnova({
          rows: [
            [0.1, 0.2],
            [0.3, 0.4],
            [0.7, 0.8],
          ],
        }),
    ],
    [
      "rows[1]",
      () =>
        blockAnova({
          rows: [
            [1, 2, 3],
            [1, 2],
          ],
        }),
    ],
    ["rows", () => blockAnova({ rows: [[1, 2, 3]] })],
    [
      "rows",
      () =>
        friedman({
          rows: [
            [2, 2, 2],
            [5, 5, 5],
          ],
        }),
    ],
    ["a", () => pairedT({ a: [0.3, 0.4, 0.8], b: [0.1, 0.2, 0.6], confidence })],
    ["b", () => pairedT({ a: [1, 2, 3], b: [1, 2], confidence })],
    ["a", () => welchT({ a: [1.2], b: [2, 3, 4] })],
    ["a", () => welchT({ a: [0.1, 0.1, 0.1], b: [0.3, 0.3] })],
    ["x", () => linearRegression({ x: [2, 2, 2], y: [1, 2, 3], confidence })],
    ["y", () => linearRegression({ x: [0.1, 0.2, 0.3], y: [0.3, 0.6, 0.9], confidence })],
    ["values", () => grubbs({ values: [0.7, 0.7, 0.7], alpha: 0.05 })],
    ["values", () => shapiroWilk({ values: [1, 2] })],
    [
      "values",
      () =>
        splitPlotAnova({
          values: [
            [
              [1, 2],
              [3, 4],
            ],
          ],
        }),
    ],
    ["values", () => summary({ values: [3.1], confidence })],
    ["nPerGroup", () => detectableDifference({ nPerGroup: 1, alpha: 0.05, power: 0.8 })],
    ["power", () => detectableDifference({ nPerGroup: 5, alpha: 0.05, power: 0.04 })],
  ])("%s is named: %s", (argument, ask) => {
    expect(ask).toThrow(`${argument} is`);
  });
});
