import { describe, expect, test } from "vitest";
import { weighedCoupons } from "../../../tests/weighed-coupons.ts";
import type { DrawablePlan } from "./draw-plan.ts";
import { lookWarnings, offeredLookDays } from "./look-calendar.ts";
import { planOutlook } from "./plan-outlook.ts";
import type { RouteStep } from "./trial-record.ts";

const alone = (name: string): RouteStep => ({ name, treated: "alone" });
const together = (name: string): RouteStep => ({ name, treated: "together" });

type Treatments = DrawablePlan["treatments"];
const finish = (name: string, coupons: number, route: RouteStep[]): Treatments[number] => ({
  name,
  role: "finish",
  coupons,
  route,
});
const control = (name: string, coupons: number, route: RouteStep[]): Treatments[number] => ({
  name,
  role: "control",
  coupons,
  route,
});
const draft = (treatments: Treatments, more: Partial<DrawablePlan> = {}): DrawablePlan => ({
  question: "",
  questions: [
    {
      response: "time to first rust",
      family: treatments.some((one) => one.role === "control") ? "control" : "pairs",
      margin: 1.5,
      atDay: null,
    },
  ],
  treatments,
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 2, 4, 7, 10, 14, 21, 28],
  blocks: 1,
  rackColumns: 12,
  sparesOfEach: 0,
  seed: 3,
  ...more,
});
const bath = together("manganese phosphate");
const comparison = (of: DrawablePlan) => planOutlook(of).questions[0]!.comparisons[0]!;

describe("units, before anything is coated", () => {
  test.each([
    [
      "six single dips each",
      [control("oil", 6, [bath, alone("oil dip")]), finish("wax", 6, [bath, alone("wax wipe")])],
      {
        n: [6, 6],
        atBest: "shown",
        unitSentences: ["6 units: six single goes (wax wipe)", "6 units: six single goes (oil dip)"],
      },
    ],
    [
      "all six in one dip",
      [control("oil", 6, [bath, alone("oil dip")]), finish("wax", 6, [bath, together("wax pot")])],
      {
        n: [1, 6],
        atBest: "cannot be told",
        pMin: 1,
        unitSentences: [
          "1 unit: all six in one go (wax pot), so nothing can be told",
          "6 units: six single goes (oil dip)",
        ],
      },
    ],
    [
      "one pot of each",
      [control("oil", 6, [bath, together("oil pot")]), finish("wax", 6, [bath, together("wax pot")])],
      { n: [1, 1], atBest: "cannot be told", eachOneBatch: true },
    ],
    [
      "one bath run beside coupons that skip it",
      [control("oil", 6, [alone("oil dip")]), finish("phosphate and oil", 6, [bath, alone("oil dip")])],
      { n: [6, 6], atBest: "suggested", oneBatch: "phosphate and oil" },
    ],
    [
      "one coupon",
      [control("oil", 6, [alone("oil dip")]), finish("wax", 1, [alone("wax wipe")])],
      { n: [1, 6], atBest: "cannot be told" },
    ],
    [
      "the same route twice",
      [control("oil", 6, [alone("oil dip")]), finish("wax", 6, [alone("oil dip")])],
      { atBest: "cannot be told", sameRoute: true },
    ],
  ] as const)("%s", (_what, treatments, expected) => {
    expect(comparison(draft([...treatments]))).toMatchObject(expected);
  });

  test("what one dip would say is proposed as single dips", () => {
    const outlook = planOutlook(
      draft([control("oil", 6, [bath, alone("oil dip")]), finish("wax", 6, [bath, together("wax pot")])]),
    );
    expect(outlook.proposals).toEqual([
      expect.stringMatching(
        /^Do "wax pot" coupon by coupon, in the drawn order: then each coupon of "wax" is a unit\./,
      ),
    ]);
    expect(outlook.questions[0]!.takenOut).toEqual(["wax"]);
    expect(outlook.notes[0]).toContain('"wax"');
  });
});

describe("the smallest p of a layout", () => {
  // facts: the table of smallest p by coupons per treatment and blocks, computed
  test.each([
    [2, 1, 1 / 3, "cannot be told"],
    [3, 1, 0.1, "suggested"],
    [4, 1, 2 / 70, "shown"],
    [6, 1, 2 / 924, "shown"],
    [6, 3, 2 / 216, "shown"],
    [6, 2, 2 / 400, "shown"],
    [3, 3, 0.25, "cannot be told"],
    [5, 5, 0.0625, "suggested"],
    [6, 6, 0.03125, "shown"],
  ] as const)("%d of each in %d blocks: %d, at best %s", (coupons, blocks, pMin, atBest) => {
    const of = draft([control("oil", coupons, [alone("oil dip")]), finish("wax", coupons, [alone("wax wipe")])], {
      blocks,
    });
    expect(comparison(of).atBest).toBe(atBest);
    expect(comparison(of).pMin).toBeCloseTo(pMin, 10);
  });

  test.each([
    [2, 1, /take 4 or more of each without blocks, or 3 blocks of two/],
    [4, 4, /With 4 of each, a draw without blocks could show a difference.*needs 6 blocks/],
    [6, 6, /plan 7 or 8 blocks, or blocks of two/],
    [1, 1, /One coupon of "oil" says nothing/],
  ] as const)("%d of each in %d blocks is advised: %s", (coupons, blocks, advice) => {
    const { proposals } = planOutlook(
      draft([control("oil", coupons, [alone("oil dip")]), finish("wax", coupons, [alone("wax wipe")])], { blocks }),
    );
    expect(proposals[0]).toMatch(advice);
  });

  test("a good layout gets no advice", () => {
    const { proposals } = planOutlook(
      draft([control("oil", 6, [alone("oil dip")]), finish("wax", 6, [alone("wax wipe")])], { blocks: 3 }),
    );
    expect(proposals).toEqual([]);
  });
});

test("witnesses take no part; all pairs are named once each", () => {
  const outlook = planOutlook(
    draft([
      finish("oil", 4, [alone("oil dip")]),
      finish("wax", 4, [alone("wax wipe")]),
      { name: "bare", role: "witness", coupons: 2, route: [] },
    ]),
  );
  expect(outlook.questions[0]!.comparisons.map(({ first, second }) => [first, second])).toEqual([["oil", "wax"]]);
});

test("several questions: the chance of some false shown is said", () => {
  const of = draft([control("oil", 6, [alone("oil dip")]), finish("wax", 6, [alone("wax wipe")])]);
  const twice = { ...of, questions: [...of.questions, { ...of.questions[0]!, response: "rusted area" as const }] };
  expect(planOutlook(twice).notes.join()).toContain("at most 10 %");
});

describe("when to look", () => {
  test.each([
    [10, [1, 2, 4, 7, 10]],
    [28, [1, 2, 4, 7, 10, 14, 21, 28]],
    [90, [1, 2, 4, 7, 10, 14, 21, 28, 35, 42, 49, 56, 63, 70, 77, 84, 98]],
  ])("until day %d: %o", (until, days) => {
    expect(offeredLookDays(until)).toEqual(days);
  });

  test.each([
    ["weekly", [7, 14, 21, 28, 35, 42], null, [/^Nobody looks before day 7/]],
    [
      "weekly, a fast control",
      [7, 14, 21, 28, 35, 42],
      { controlDays: 10, bestDays: 30 },
      [/too wide: days 0 to 7, 7 to 14/],
    ],
    ["weekly, a slow control", [7, 14, 21, 28, 35, 42], { controlDays: 25, bestDays: 30 }, []],
    ["too short", [1, 2, 4, 7, 10, 14], { controlDays: 10, bestDays: 14 }, [/^The last look, day 14, comes before/]],
    ["few", [1, 4], null, [/^Few looks \(2\)/]],
    ["none", [0], null, [/^No look is planned/]],
    ["dense", [1, 2, 4, 7, 10, 14, 21], null, []],
  ] as const)("%s", (_what, days, expected, warnings) => {
    const found = lookWarnings(days, expected);
    expect(found).toHaveLength(warnings.length);
    for (const [at, warning] of warnings.entries()) expect(found[at]).toMatch(warning);
  });

  test("a tape test alone asks for no calendar", () => {
    const of = draft([control("oil", 6, [alone("oil dip")]), finish("wax", 6, [alone("wax wipe")])], {
      lookDays: [14],
    });
    expect(
      planOutlook({ ...of, questions: [{ ...of.questions[0]!, response: "tape class", atDay: null }] }).lookWarnings,
    ).toEqual([]);
  });
});

describe("baths run in batches", () => {
  const zinc = together("zinc phosphate");
  const twoBaths = (coupons: number) => [
    finish("zinc, oil", coupons, [zinc, alone("oil dip")]),
    finish("zinc, wax", coupons, [zinc, alone("wax wipe")]),
    finish("manganese, oil", coupons, [bath, alone("oil dip")]),
  ];
  const between = (of: DrawablePlan, first: string, second: string) =>
    planOutlook(of).questions[0]!.comparisons.find((one) => one.first === first && one.second === second)!;

  test("four runs of each bath are four units, and the finishes are compared inside them", () => {
    const planned = draft(twoBaths(8), { batchesOfEach: 4 });
    const baths = between(planned, "zinc, oil", "manganese, oil");
    expect(baths.n).toEqual([4, 4]);
    expect(baths.pMin).toBeCloseTo(2 / 70, 12);
    expect(baths.atBest).toBe("shown");
    expect(baths.unitSentences[0]).toBe("4 units: four batches (zinc phosphate), eight coupons in all");
    // Two and two in each of four batches: 2 of 6^4.
    expect(between(planned, "zinc, oil", "zinc, wax").pMin).toBeCloseTo(2 / 6 ** 4, 12);
    expect(planOutlook(planned).proposals).toEqual([]);
  });

  test("one coupon of each in a batch", () =>
    expect(between(draft(twoBaths(4), { batchesOfEach: 4 }), "zinc, oil", "manganese, oil").unitSentences[0]).toBe(
      "4 units: four batches of one coupon (zinc phosphate)",
    ));

  test("two runs of each: nothing can be told of the baths", () =>
    expect(between(draft(twoBaths(8), { batchesOfEach: 2 }), "zinc, oil", "manganese, oil")).toMatchObject({
      n: [2, 2],
      atBest: "cannot be told",
    }));
});

describe("a declared order", () => {
  const coats = (each: number) => ["one", "two", "three"].map((name) => finish(name, each, [alone(`${name} coats`)]));
  const outlook = (each: number) =>
    planOutlook(
      draft(coats(each), {
        questions: [
          {
            response: "time to first rust",
            family: "pairs",
            margin: null,
            atDay: null,
            order: ["one", "two", "three"],
          },
        ],
      }),
    ).questions[0]!;

  test("no comparisons, one sentence", () => {
    expect(outlook(3)).toMatchObject({
      comparisons: [],
      order: {
        atBest: "shown",
        sentence:
          'The order "one" → "two" → "three" can be shown to matter, if it does so clearly enough (3, 3, 3 units).',
      },
    });
  });

  test.each([
    [1, "cannot be told"],
    [2, "suggested"],
  ])("%d of each: %s", (each, atBest) => expect(outlook(each).order!.atBest).toBe(atBest));
});

test("measured values are judged by the scatter of the whole trial, not by how few draws there are", () => {
  const of = (each: number) =>
    planOutlook(
      draft(
        ["a", "b", "c"].map((name) => finish(name, each, [alone(name)])),
        { questions: [weighedCoupons] },
      ),
    ).questions[0]!.comparisons[0]!;
  // Three of each of three: p could not fall below 1 in 10 by rearranging, but there are 6 degrees of freedom.
  expect(of(3).atBest).toBe("shown");
  expect(of(2)).toMatchObject({
    atBest: "suggested",
    caps: ["two units on one side", "the scatter would be known from only 3 degrees of freedom"],
  });
});
