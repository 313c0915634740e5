import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blandAltman } from "./bland-altman.ts";
import { e691, e691Critical } from "./e691.ts";
import { gaugeRepeatability } from "./gauge-repeatability.ts";
import { icc21 } from "./intraclass-correlation.ts";
import { cohenKappa, weightedKappa } from "./kappa.ts";
import { krippendorffAlpha } from "./krippendorff-alpha.ts";

const confidence = 0.95;

describe("kappa", () => {
  test("20 5 / 10 15 by hand: 0.7 observed, 0.5 by chance, kappa 0.4", () => {
    const found = cohenKappa({
      table: [
        [20, 5],
        [10, 15],
      ],
      confidence,
    });
    expect(found.observedAgreement).toBeCloseTo(0.7, 12);
    expect(found.expectedAgreement).toBeCloseTo(0.5, 12);
    expect(found.kappa).toBeCloseTo(0.4, 12);
    expect(found.standardError).toBeCloseTo(0.1269960629311, 11);
  });

  test("full agreement is 1 without scatter; worse than chance is below 0", () => {
    expect(
      cohenKappa({
        table: [
          [5, 0],
          [0, 7],
        ],
        confidence,
      }),
    ).toMatchObject({ kappa: 1, standardError: 0, lower: 1, upper: 1 });
    expect(
      cohenKappa({
        table: [
          [2, 6],
          [7, 3],
        ],
        confidence,
      }).kappa,
    ).toBeCloseTo(-4 / 9, 12);
  });

  test("two grades: all weights are alike; turning grader and grader about changes nothing", () => {
    const cell = fc.integer({ min: 1, max: 30 });
    fc.assert(
      fc.property(cell, cell, cell, cell, (a, b, c, d) => {
        const plain = cohenKappa({
          table: [
            [a, b],
            [c, d],
          ],
          confidence,
        });
        for (const weights of ["linear", "quadratic"] as const) {
          const weighted = weightedKappa({
            table: [
              [a, c],
              [b, d],
            ],
            weights,
            confidence,
          });
          expect(weighted.kappa).toBeCloseTo(plain.kappa, 10);
          expect(weighted.standardError).toBeCloseTo(plain.standardError, 10);
        }
      }),
    );
  });

  test("a near miss counts: the weighted kappa of three classes, computed with statsmodels", () => {
    const graded = {
      table: [
        [53, 5, 2],
        [11, 14, 5],
        [1, 6, 3],
      ],
      confidence,
    };
    expect(cohenKappa(graded).kappa).toBeCloseTo(0.428571428571, 10);
    expect(weightedKappa({ ...graded, weights: "linear" }).kappa).toBeCloseTo(0.492307692308, 10);
    expect(weightedKappa({ ...graded, weights: "quadratic" }).kappa).toBeCloseTo(0.566666666667, 10);
  });

  test.each([
    [
      [
        [1, 2, 3],
        [2, 3, 4],
      ],
    ],
    [
      [
        [0, 0],
        [0, 0],
      ],
    ],
    [
      [
        [9, 0],
        [0, 0],
      ],
    ],
  ])("%j is refused", (table) => {
    expect(() => cohenKappa({ table, confidence })).toThrow(/^table is/);
  });
});

describe("several graders", () => {
  const six = [
    [9, 2, 5, 8],
    [6, 1, 3, 2],
    [8, 4, 6, 8],
    [7, 1, 2, 6],
    [10, 5, 6, 9],
    [6, 2, 4, 7],
  ];

  test("Shrout and Fleiss's six by four: 0.29, mean squares 11.24, 32.49, 1.02 (memory)", () => {
    const found = icc21({ ratings: six, confidence });
    expect(found.icc).toBeCloseTo(0.2898, 4);
    expect([found.msRows, found.msColumns, found.msError].map((one) => one.toFixed(2))).toEqual([
      "11.24",
      "32.49",
      "1.02",
    ]);
    expect([found.lower, found.upper].map((one) => one.toFixed(2))).toEqual(["0.02", "0.76"]);
  });

  test("the same to all is 1, with limits of 1; a grader who sees double lowers it", () => {
    const alike = six.map((row) => [row[0]!, row[0]!]);
    const found = icc21({ ratings: alike, confidence });
    expect(found.icc).toBeCloseTo(1, 12);
    expect(found.lower).toBeCloseTo(1, 12);
    expect(found.upper).toBeCloseTo(1, 12);
    expect(icc21({ ratings: six.map((row) => [row[0]!, row[0]! + 2]), confidence }).icc).toBeLessThan(0.8);
  });

  test("Krippendorff's four observers: 0.743, 0.815, 0.849 (memory)", () => {
    const ratings = [
      [1, 2, 3, 3, 2, 1, 4, 1, 2, null, null, null],
      [1, 2, 3, 3, 2, 2, 4, 1, 2, 5, null, 3],
      [null, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, null],
      [1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, null],
    ];
    const at = (level: "nominal" | "ordinal" | "interval") => krippendorffAlpha({ ratings, level });
    expect(at("nominal").alpha).toBeCloseTo(0.743, 3);
    expect(at("ordinal").alpha).toBeCloseTo(0.815, 3);
    expect(at("interval").alpha).toBeCloseTo(0.849, 3);
    // the twelfth coupon was rated once only
    expect(at("nominal").pairableValues).toBe(40);
  });

  test("nothing to compare is refused", () => {
    expect(() =>
      krippendorffAlpha({
        ratings: [
          [1, 1],
          [1, 1],
        ],
        level: "ordinal",
      }),
    ).toThrow(/^ratings is .* vary/);
    expect(() =>
      krippendorffAlpha({
        ratings: [
          [1, null],
          [null, 2],
        ],
        level: "ordinal",
      }),
    ).toThrow(/rated twice/);
    expect(() => icc21({ ratings: [[1], [2]], confidence })).toThrow(/^ratings\[0\] is/);
    expect(() =>
      icc21({
        ratings: [
          [3, 3],
          [3, 3],
        ],
        confidence,
      }),
    ).toThrow(/^ratings is/);
  });
});

describe("two ways of measuring", () => {
  test("three pairs by hand: differences -0.5, 0.2, -0.4", () => {
    const found = blandAltman({ a: [1, 2, 4], b: [1.5, 1.8, 4.4], confidence });
    expect(found.bias).toBeCloseTo(-0.7 / 3, 12);
    expect(found.sd).toBeCloseTo(0.37859389, 8);
    expect(found.upperLimit).toBeCloseTo(found.bias + 1.959964 * found.sd, 6);
    expect(found.lowerLimitLower).toBeCloseTo(-2.82815438, 7);
  });

  test("the limits stay when the confidence of their intervals changes", () => {
    const pairs = { a: [1.1, 2.4, 0.3, 7.9], b: [1.4, 2.2, 0.5, 8.8] };
    const [wide, narrow] = [blandAltman({ ...pairs, confidence: 0.99 }), blandAltman({ ...pairs, confidence: 0.8 })];
    expect(wide.upperLimit).toBe(narrow.upperLimit);
    expect(wide.biasUpper).toBeGreaterThan(narrow.biasUpper);
  });
});

describe("gauge study", () => {
  const coupons = [
    [
      [3.71, 3.89],
      [4.56, 4.85],
    ],
    [
      [5.76, 5.76],
      [5.88, 5.62],
    ],
    [
      [6.69, 6.81],
      [7.87, 7.7],
    ],
    [
      [8.89, 8.65],
      [8.54, 8.53],
    ],
    [
      [9.5, 9.47],
      [10.46, 10.66],
    ],
  ];

  test("five coupons, two graders, two trials: the parts add up", () => {
    const found = gaugeRepeatability({ values: coupons });
    expect(found.ssRepeatability).toBeCloseTo(0.163, 10);
    expect(found.gaugeSd ** 2).toBeCloseTo(found.repeatabilitySd ** 2 + found.reproducibilitySd ** 2, 12);
    expect(found.totalSd ** 2).toBeCloseTo(found.gaugeSd ** 2 + found.partSd ** 2, 12);
    expect(found.distinctCategories).toBe(5);
  });

  test("no scatter of the measurement, one trial and a missing grader are refused", () => {
    expect(() =>
      gaugeRepeatability({
        values: [
          [
            [0.1, 0.1],
            [0.1, 0.1],
          ],
          [
            [0.3, 0.3],
            [0.3, 0.3],
          ],
        ],
      }),
    ).toThrow(/^values is/);
    expect(() =>
      gaugeRepeatability({
        values: [
          [[1], [2]],
          [[2], [3]],
        ],
      }),
    ).toThrow(/^values\[0\]\[0\] is/);
    expect(() => gaugeRepeatability({ values: [coupons[0]!, [[5.76, 5.76]]] })).toThrow(/^values\[1\] is/);
  });
});

describe("ASTM E691", () => {
  /** Serum glucose, material D, eight laboratories; statistics as published (memory). */
  const glucose = [
    [193.71, 193.59, 193.65],
    [190.88, 200.14, 194.3],
    [192.71, 193.28, 190.28],
    [195.85, 196.36, 199.43],
    [192.59, 191.44, 195.12],
    [195.34, 198.26, 198.13],
    [194.66, 191.99, 187.13],
    [197.56, 195.99, 200.82],
  ];

  test("serum glucose D: sr 2.6251, sR 3.3657, r 7.35, R 9.42", () => {
    const found = e691({ cells: glucose });
    expect(found.mean).toBeCloseTo(194.7171, 4);
    expect(found.repeatabilitySd).toBeCloseTo(2.6251, 4);
    expect(found.reproducibilitySd).toBeCloseTo(3.3657, 4);
    expect(found.repeatabilityLimit).toBeCloseTo(7.35, 2);
    expect(found.reproducibilityLimit).toBeCloseTo(9.42, 2);
    expect(found.h.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 9);
    expect(found.k.reduce((sum, one) => sum + one * one, 0)).toBeCloseTo(8, 9);
  });

  test("reproducibility is never below repeatability: graders whose means hardly differ", () => {
    const found = e691({
      cells: [
        [1, 3],
        [1.1, 3],
        [0.9, 3.1],
      ],
    });
    expect(found.reproducibilitySd).toBe(found.repeatabilitySd);
  });

  test("critical h 2.15 and k 2.06 for 8 laboratories and 3 replicates (printed, memory)", () => {
    const { h, k } = e691Critical({ laboratories: 8, replicates: 3 });
    expect([h.toFixed(2), k.toFixed(2)]).toEqual(["2.15", "2.06"]);
  });

  test.each([
    [
      "cells[1]",
      () =>
        e691({
          cells: [
            [1, 2],
            [1, 2, 3],
          ],
        }),
    ],
    ["cells[0]", () => e691({ cells: [[1], [2]] })],
    ["cells", () => e691({ cells: [[1, 2]] })],
    [
      "cells",
      () =>
        e691({
          cells: [
            [0.1, 0.1],
            [0.3, 0.3],
          ],
        }),
    ],
    [
      "cells",
      () =>
        e691({
          cells: [
            [1, 3],
            [3, 1],
          ],
        }),
    ],
    ["laboratories", () => e691Critical({ laboratories: 2, replicates: 3 })],
  ])("%s is refused by name", (argument, ask) => {
    expect(ask).toThrow(`${argument} is`);
  });
});
