import { describe, expect, test } from "vitest";
import { between, type SmallCoupon, smallQuestion, times, values } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import type { Finding } from "./finding.ts";
import type { Question } from "./question.ts";

const numbers = (finding: Finding | undefined) => finding?.wouldTell?.map((one) => one.perTreatment) ?? null;
const one = (right: number): SmallCoupon[] => [between(right - 7, right)];
const first = (groups: Record<string, SmallCoupon[]>, said: Partial<Question> = {}) =>
  numbers(answerQuestion(smallQuestion(groups, said)).findings[0]);

describe("what would tell, by the formula 2 ((z + z) sigma / size)²", () => {
  // z(0.975) 1.960, z(0.995) 2.576, z(0.8) 0.842, z(0.9) 1.282; one coupon each, so the scatter is assumed.
  test.each<[string, number[], Record<string, SmallCoupon[]>, Partial<Question>]>([
    ["times, factor 2: (2.802 x 0.525 / 0.693)² x 2 = 9.01", [10, 13], { A: one(28), control: one(14) }, {}],
    ["times, the user's factor 3: 3.59, but four at least", [4, 5], { A: one(28), control: one(14) }, { margin: 3 }],
    [
      "strokes, log SD 0.25: 2.04",
      [4, 4],
      { A: one(28), control: one(14) },
      { unit: "strokes", response: "strokes to breakthrough" },
    ],
    [
      "five finishes beside the control: z(0.995), (3.418 x 0.757)² x 2 = 13.4",
      [14, 18],
      { A: one(28), control: one(14), B: one(28), C: one(28), D: one(28), E: one(28) },
      {},
    ],
    [
      "classes, SD 1: 15.7",
      [16, 22],
      { A: values(9), control: values(7) },
      { kind: "ordinal", scale: { best: 10, worst: 0 } },
    ],
    [
      "areas, ln 10 x 0.4 = 0.921: 27.7 and 37.1",
      [28, Number.NaN],
      { A: values(0.5), control: values(2) },
      { kind: "area", better: "lower", detectionLimitPercent: 0.01 },
    ],
  ])("%s", (_, expected, groups, said) =>
    expect(first(groups, said)).toEqual(expected.map((count) => (Number.isNaN(count) ? null : count))),
  );

  test("the pairs of the second step count among themselves", () => {
    const { findings } = answerQuestion(smallQuestion({ A: one(28), control: one(14), B: one(28) }));
    // Two comparisons with the control: z(0.9875) = 2.241, 10.91; one pair beside them: 9.01.
    expect(findings.map(numbers)).toEqual([
      [11, 15],
      [11, 15],
      [10, 13],
    ]);
  });

  test("less scatter in the trial itself asks for fewer, once it is well known", () => {
    const close = [14, 21, 21, 28, 14].map((right) => between(right - 7, right));
    const wouldTell = first({ A: close, control: close });
    expect(wouldTell![0]).toBeLessThan(10);
    expect(first({ A: times(5, 84, null), control: times(5, 84, null) })).toBeNull();
  });

  test("nothing is asked where it is told already", () =>
    expect(first({ A: times(5, 84, null), control: times(5, 0, 7) })).toBeNull());
});
