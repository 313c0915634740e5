import { describe, expect, test } from "vitest";
import { type SmallCoupon, smallQuestion } from "../../../tests/small-question.ts";
import { answerDetails } from "./answer-details.ts";
import { leaveOneOutRange } from "./leave-one-out.ts";
import type { Question, QuestionCoupon } from "./question.ts";

type Data = Record<string, QuestionCoupon["datum"][]>;
const kinds = {
  time: { kind: "time", unit: "days", scale: null },
  ordinal: { kind: "ordinal", unit: "classes", scale: { best: 10, worst: 0 } },
  continuous: { kind: "continuous", unit: "g/m²", scale: null },
  binary: { kind: "binary", unit: "", scale: null },
} as const;

function asked(kind: keyof typeof kinds, data: Data, blocks = 1): Question {
  const coupons = Object.entries(data).map(([treatment, own]): [string, SmallCoupon[]] => [
    treatment,
    own.map((datum, at) => ({
      coupon: `${treatment}${at + 1}`,
      block: blocks === 1 ? null : String(at % blocks),
      datum,
    })),
  ]);
  return smallQuestion(Object.fromEntries(coupons), {
    response: "response",
    ...kinds[kind],
    family: "pairs",
    control: null,
  });
}
const values = (...all: number[]) => all.map((value) => ({ value }));
const pair = [{ first: "A", second: "B" }];
const said = (question: Question, name: string) => {
  const details = answerDetails(question, pair);
  return [...details.whole, ...details.comparisons[0]!.details]
    .filter((one) => one.name === name)
    .map((one) => one.says);
};

describe("one unit left out", () => {
  test("3 against 3 wholly apart: p is 2 of 10 whoever is left out", () =>
    expect(leaveOneOutRange(asked("ordinal", { A: values(1, 2, 3), B: values(7, 8, 9) }), "A", "B")).toEqual({
      lowest: 0.2,
      highest: 0.2,
    }));

  test("one coupon alone spoils it: without it p is as small as it gets", () => {
    // 3 against 4 wholly apart: 1 of 35 is as far out, both sides being unequal; with the straying coupon all else is far larger.
    const range = leaveOneOutRange(asked("ordinal", { A: values(1, 2, 3, 9), B: values(6, 7, 8, 10) }), "A", "B")!;
    expect(range.lowest).toBeCloseTo(2 / 35, 10);
    expect(range.highest).toBeGreaterThan(0.2);
  });

  test("of measured values it is the t of the answer", () => {
    const { lowest, highest } = leaveOneOutRange(
      asked("continuous", { A: values(1, 2, 3), B: values(11, 12, 13) }),
      "A",
      "B",
    )!;
    // Left out at an end: 1.5 or 2.5 against 12, pooled variance (0.5 + 2) / 3, 3 degrees of freedom.
    expect(lowest).toBeLessThan(highest);
    expect(lowest).toBeCloseTo(0.001, 3);
  });

  test("one unit on a side leaves nothing to leave out", () =>
    expect(leaveOneOutRange(asked("ordinal", { A: values(1), B: values(7, 8, 9) }), "A", "B")).toBeNull());
});

describe("what a reader may look at", () => {
  test("times: ranks of all treatments, and the delta method beside the profile", () => {
    const time = (left: number, right: number | null) => ({ left, right });
    const question = asked("time", {
      A: [time(20, 30), time(30, 40), time(40, 50), time(30, 40)],
      B: [time(5, 10), time(10, 20), time(5, 10), time(10, 20)],
      C: [time(10, 20), time(5, 10), time(20, 30), time(10, 20)],
    });
    expect(said(question, "Kruskal-Wallis")[0]).toMatch(
      /^blocks left aside: H \d\.\d\d on 2 degrees of freedom, exact p 0\.0\d+$/,
    );
    expect(said(question, "Delta method")[0]).toMatch(
      /^ratio 3\.\d, 95 % from 2\.\d to 5\.\d; too narrow for few coupons$/,
    );
    expect(said(question, "One unit left out")[0]).toMatch(/^p of the pair alone from 0\.0\d+ to 0\.0\d+$/);
  });

  test("grades in blocks of one: Friedman, and how many pairings are better", () => {
    const question = asked("ordinal", { A: values(9, 8, 7), B: values(5, 4, 3), C: values(1, 2, 1) }, 3);
    // Rank sums 9, 6, 3: all three blocks agree, 6 of 6^3 ways.
    expect(said(question, "Friedman")).toEqual(["chi-square 6.00 in 3 blocks, exact p 0.028"]);
    expect(said(question, "Cliff's delta")[0]).toMatch(/^1: pairings in which the first is better/);
  });

  test("measured values: what is left over, what lies far out and stays in, unequal scatter", () => {
    const question = asked("continuous", { A: values(5, 5.2, 4.9, 9), B: values(3, 3.1, 2.9, 3.2) });
    expect(said(question, "Shapiro-Wilk")[0]).toMatch(/^what treatments and blocks leave over: W 0\.\d{3}, p /);
    expect(said(question, "Grubbs")[0]).toMatch(/^A: coupon A4 lies farthest out, G 1\.\d\d, p .*; it stays in$/);
    expect(said(question, "Games-Howell")[0]).toMatch(/^without equal scatter and without blocks: p 0\./);
  });

  test("yes and no: Freeman-Halton for all, Boschloo for a pair, CMH in blocks", () => {
    const question = asked("binary", { A: values(1, 1, 1, 1), B: values(0, 0, 0, 0) }, 2);
    expect(said(question, "Freeman-Halton")).toEqual(["p 0.029"]);
    expect(said(question, "Boschloo")[0]).toMatch(/^p 0\.00\d+$/);
    expect(said(question, "Cochran-Mantel-Haenszel")[0]).toMatch(/^chi-square \d\.\d\d, p 0\.0/);
  });

  test("data that a method refuses are passed over in silence: nothing scatters", () => {
    const question = asked("continuous", { A: values(5, 5, 5), B: values(3, 3, 3) });
    expect(said(question, "Shapiro-Wilk")).toEqual([]);
    expect(said(question, "Grubbs")).toEqual([]);
  });
});
