import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boschloo } from "./boschloo.ts";
import { cochranMantelHaenszel } from "./cochran-mantel-haenszel.ts";
import { fisherExact } from "./fisher-exact.ts";
import { freemanHalton } from "./freeman-halton.ts";
import { mcnemarExact } from "./mcnemar-exact.ts";
import { newcombeDifference } from "./newcombe-difference.ts";

const confidence = 0.95;
const count = fc.integer({ min: 0, max: 12 });

describe("two groups, yes or no", () => {
  test("three clean against three rusted: the smallest p possible is 2 of 20", () => {
    const found = fisherExact({
      table: [
        [3, 0],
        [0, 3],
      ],
      confidence,
    });
    expect(found.p).toBeCloseTo(0.1, 12);
    expect(found.pGreater).toBeCloseTo(0.05, 12);
    expect(found.oddsRatio).toBeNull();
    expect(found.upper).toBeNull();
    expect(found.lower).toBeCloseTo(0.647976184, 8);
  });

  test("nobody rusted: p is 1 and there is no odds ratio", () => {
    expect(
      fisherExact({
        table: [
          [5, 0],
          [6, 0],
        ],
        confidence,
      }),
    ).toEqual({
      ...{ p: 1, pLess: 1, pGreater: 1 },
      ...{ oddsRatio: null, lower: 0, upper: null },
    });
  });

  test("unequal groups (published p of the tea table: 34/70)", () => {
    expect(
      fisherExact({
        table: [
          [3, 1],
          [1, 3],
        ],
        confidence,
      }).p,
    ).toBeCloseTo(34 / 70, 12);
    const unequal = fisherExact({
      table: [
        [2, 15],
        [7, 4],
      ],
      confidence,
    });
    expect(unequal.p).toBeCloseTo(0.0104315974, 9);
    expect(unequal.oddsRatio).toBeCloseTo(0.0858969540387, 9);
    expect(unequal.lower).toBeCloseTo(0.00630333917201, 10);
    expect(unequal.upper).toBeCloseTo(0.672159066799, 9);
  });

  test("a p far below 1e-30 keeps its digits", () => {
    expect(
      fisherExact({
        table: [
          [60, 0],
          [0, 60],
        ],
        confidence,
      }).p / 2.07007388818696e-35,
    ).toBeCloseTo(1, 9);
  });

  test("swapping the groups keeps p and turns the odds ratio over", () => {
    fc.assert(
      fc.property(count, count, count, count, (a, b, c, d) => {
        fc.pre(a + b > 0 && c + d > 0);
        const one = fisherExact({
          table: [
            [a, b],
            [c, d],
          ],
          confidence,
        });
        const other = fisherExact({
          table: [
            [c, d],
            [a, b],
          ],
          confidence,
        });
        expect(one.p).toBeCloseTo(other.p, 12);
        expect(one.pLess).toBeCloseTo(other.pGreater, 12);
        if (one.oddsRatio && other.oddsRatio) expect(one.oddsRatio * other.oddsRatio).toBeCloseTo(1, 7);
      }),
    );
  });

  test("Freeman and Halton's test of a 2 x 2 table is Fisher's", () => {
    fc.assert(
      fc.property(count, count, count, count, (a, b, c, d) => {
        fc.pre(a + b > 0 && c + d > 0);
        const table: [[number, number], [number, number]] = [
          [a, b],
          [c, d],
        ];
        expect(freemanHalton({ table }).p).toBeCloseTo(fisherExact({ table, confidence }).p, 10);
      }),
      { numRuns: 50 },
    );
  });

  test("Boschloo: 3 of 3 against 0 of 3 has p 2/64, at a common proportion of one half", () => {
    const found = boschloo({ successes1: 3, trials1: 3, successes2: 0, trials2: 3, alternative: "twoSided" });
    expect(found.statistic).toBeCloseTo(0.1, 12);
    expect(found.p).toBeCloseTo(2 / 64, 9);
  });

  test("Boschloo is never above Fisher", () => {
    const group = fc
      .integer({ min: 1, max: 7 })
      .chain((trials) => fc.tuple(fc.integer({ min: 0, max: trials }), fc.constant(trials)));
    fc.assert(
      fc.property(group, group, fc.constantFrom("twoSided", "less", "greater"), ([s1, t1], [s2, t2], alternative) => {
        const found = boschloo({ successes1: s1, trials1: t1, successes2: s2, trials2: t2, alternative });
        expect(found.p).toBeLessThanOrEqual(found.statistic + 1e-9);
        const all = fisherExact({
          table: [
            [s1, t1 - s1],
            [s2, t2 - s2],
          ],
          confidence,
        });
        const own = { twoSided: all.p, less: all.pLess, greater: all.pGreater }[alternative];
        expect(found.statistic).toBeCloseTo(own, 10);
      }),
      { numRuns: 40 },
    );
  });

  test("Newcombe's difference: 56 of 70 against 48 of 80 (published to four digits), none against none", () => {
    const found = newcombeDifference({ successes1: 56, trials1: 70, successes2: 48, trials2: 80, confidence });
    expect([found.difference, found.lower, found.upper].map((one) => one.toFixed(4))).toEqual([
      "0.2000",
      "0.0524",
      "0.3339",
    ]);
    const none = newcombeDifference({ successes1: 0, trials1: 10, successes2: 0, trials2: 20, confidence });
    expect(none.difference).toBe(0);
    expect(none.lower).toBeCloseTo(-0.161125158, 8);
    expect(none.upper).toBeCloseTo(0.2775328, 8);
  });

  test.each([
    [
      "table[0]",
      () =>
        fisherExact({
          table: [
            [0, 0],
            [3, 2],
          ],
          confidence,
        }),
    ],
    ["table", () => freemanHalton({ table: [[1, 2, 3]] })],
    [
      "table[1]",
      () =>
        freemanHalton({
          table: [
            [1, 2, 3],
            [1, 2],
          ],
        }),
    ],
    [
      "table[0][1]",
      () =>
        fisherExact({
          table: [
            [1, -2],
            [3, 2],
          ],
          confidence,
        }),
    ],
    [
      "alternative",
      () => boschloo({ successes1: 1, trials1: 2, successes2: 1, trials2: 2, alternative: "sideways" as "less" }),
    ],
    ["trials1", () => newcombeDifference({ successes1: 0, trials1: 0, successes2: 1, trials2: 4, confidence })],
  ])("%s is refused by name", (argument, ask) => {
    expect(ask).toThrow(`${argument} is`);
  });
});

describe("several groups, several outcomes", () => {
  test.each([
    [
      [
        [5, 0],
        [2, 3],
        [0, 5],
      ],
      0.00932400932400936,
    ],
    [
      [
        [3, 2, 0],
        [1, 2, 2],
        [0, 1, 4],
      ],
      0.122306265163409,
    ],
    [
      [
        [1, 2, 1, 0],
        [3, 3, 6, 1],
        [10, 10, 14, 9],
        [6, 7, 12, 11],
      ],
      0.7826849389656,
    ], // published as 0.7827
    [
      [
        [4, 0],
        [3, 0],
      ],
      1,
    ], // an outcome that nobody had
  ])("%j has p %d", (table, p) => {
    expect(freemanHalton({ table }).p / p).toBeCloseTo(1, 8);
  });

  test("turning the table on its side changes nothing", () => {
    const table = [
      [4, 1, 0],
      [0, 2, 3],
    ];
    expect(
      freemanHalton({
        table: [
          [4, 0],
          [1, 2],
          [0, 3],
        ],
      }).p,
    ).toBeCloseTo(freemanHalton({ table }).p, 12);
  });
});

describe("within blocks and pairs", () => {
  test("one block: the uncorrected chi-square is (n-1)/n of Pearson's", () => {
    // 2 x 2 table 4 1 / 1 4: Pearson 10 (16 - 1)² / 5^4 = 3.6
    expect(
      cochranMantelHaenszel({
        strata: [
          [
            [4, 1],
            [1, 4],
          ],
        ],
        continuity: false,
      }).chi2,
    ).toBeCloseTo(3.6 * 0.9, 12);
  });

  test("the correction never passes the sum itself", () => {
    const even = cochranMantelHaenszel({
      strata: [
        [
          [2, 2],
          [2, 2],
        ],
      ],
      continuity: true,
    });
    expect(even).toEqual({ chi2: 0, p: 1, commonOddsRatio: 1 });
  });

  test("an odds ratio without end is null", () => {
    expect(
      cochranMantelHaenszel({
        strata: [
          [
            [3, 0],
            [0, 3],
          ],
        ],
        continuity: true,
      }).commonOddsRatio,
    ).toBeNull();
  });

  test.each([
    [[]],
    [
      [
        [
          [3, 0],
          [4, 0],
        ],
      ],
    ], // nobody rusted
    [
      [
        [
          [0, 0],
          [4, 1],
        ],
      ],
    ], // one group only
  ] as [[[number, number], [number, number]][]][])("%j is refused", (strata) => {
    expect(() => cochranMantelHaenszel({ strata, continuity: true })).toThrow(/^strata is/);
  });

  test.each([
    [0, 5, 2 / 32, 1 / 32],
    [1, 8, 20 / 512, 11 / 512],
    [4, 4, 1, 1],
    [59, 6, 4.96465032712862e-12, 2.72580319860688e-12],
  ])("McNemar with %d and %d pairs: p %d, mid-p %d", (b, c, p, midP) => {
    const found = mcnemarExact({ b, c });
    expect(found.p / p).toBeCloseTo(1, 10);
    expect(found.midP / midP).toBeCloseTo(1, 10);
    expect(mcnemarExact({ b: c, c: b })).toEqual(found);
  });

  test("pairs that all agree are refused", () => {
    expect(() => mcnemarExact({ b: 0, c: 0 })).toThrow(/^b is 0; expected at least one pair/);
  });
});
