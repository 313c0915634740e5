import { describe, expect, test } from "vitest";
import { type SmallCoupon, smallQuestion } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import type { Question } from "./question.ts";

const order = ["one coat", "two coats", "three coats"];

/** Grades, 10 the best; coupons of each treatment in its order. */
function ordered(grades: number[][], more: Partial<Question> = {}): Question {
  const coupons = grades.map((own, at): [string, SmallCoupon[]] => [
    order[at]!,
    own.map((value, number) => ({ coupon: `${at + 1}-${number + 1}`, datum: { value } })),
  ]);
  return smallQuestion(Object.fromEntries(coupons), {
    response: "grade",
    kind: "ordinal",
    unit: "classes",
    scale: { best: 10, worst: 0 },
    family: "pairs",
    control: null,
    treatments: ["one coat", "three coats", "two coats"],
    order,
    ...more,
  });
}
const trend = (question: Question) => answerQuestion(question).trend!;
const rising = [
  [3, 4, 4],
  [5, 6, 6],
  [7, 8, 9],
];

describe("a declared order is a question of its own", () => {
  test("rising grades are shown by one p and one sentence, and no pair is compared", () => {
    const answer = answerQuestion(ordered(rising));
    expect(answer.findings).toEqual([]);
    expect(answer.trend).toMatchObject({ order, n: [3, 3, 3], verdict: "shown", because: [] });
    // Farthest of all 1680 ways, ties as they are: the rising one and the falling one.
    expect(answer.trend!.p).toBeLessThan(0.01);
    expect(answer.trend!.effect).toMatchObject({ name: "class shift", value: 4 });
    expect(answer.trend!.sentence).toMatch(
      /^Along the order one coat → two coats → three coats it gets better towards three coats: 4 classes better from one coat to three coats \(95 % .*\)\. With 3, 3, 3 units: had the order made no difference, a trend this strong would turn up in at most about one such trial in \d+\.$/,
    );
  });

  test("falling grades: better towards the first", () => {
    const answer = trend(ordered([...rising].reverse()));
    expect(answer.verdict).toBe("shown");
    expect(answer.sentence).toContain("it gets better towards one coat: 4 classes better from three coats to one coat");
  });

  test.each<[string, number[][], Partial<Question>, string, RegExp]>([
    ["exploratory", rising, { declared: false }, "suggested", /not declared before the first look/],
    ["no lot", rising, { randomised: false }, "suggested", /not allotted by lot/],
    [
      "one coupon each",
      [[3], [5], [8]],
      {},
      "cannot be told",
      /there is one coupon of one coat, two coats, three coats/,
    ],
    [
      "two of one",
      [
        [3, 4],
        [5, 6, 6],
        [7, 8, 9],
      ],
      {},
      "suggested",
      /only two coupons/,
    ],
    [
      "all best",
      [
        [10, 10],
        [10, 10],
        [10, 10],
      ],
      {},
      "cannot be told",
      /came out at the best end/,
    ],
    [
      "no trend",
      [
        [3, 8, 5],
        [7, 4, 6],
        [5, 6, 4],
      ],
      {},
      "not told apart",
      /^$/,
    ],
  ])("%s", (_, grades, more, verdict, reason) => {
    const answer = trend(ordered(grades, more));
    expect(answer.verdict).toBe(verdict);
    expect(answer.because.join("; ")).toMatch(reason);
  });

  test("each treatment in a batch of its own: the batch could be it", () => {
    const question = ordered(rising);
    const coupons = question.coupons.map((one) => ({ ...one, applications: { batch: one.treatment } }));
    expect(trend({ ...question, coupons, treatedSeparately: "recorded" }).verdict).toBe("cannot be told");
  });

  test("a trend that hangs on a coupon that deviated is suggested", () => {
    const question = ordered([
      [3, 4, 4, 6],
      [5, 6, 6, 5],
      [6, 5, 9, 9],
    ]);
    const coupons = question.coupons.map((one) =>
      ["3-3", "3-4", "1-1"].includes(one.coupon) ? { ...one, deviation: "oiled warm" } : one,
    );
    const whole = trend(question);
    expect(whole.verdict).toBe("shown");
    expect(trend({ ...question, coupons })).toMatchObject({
      verdict: "suggested",
      because: ["this hangs on coupons that deviated"],
    });
  });
});
