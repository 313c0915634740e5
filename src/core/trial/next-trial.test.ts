import { describe, expect, test } from "vitest";
import { smallQuestion, withData } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import { confirmedUnits, nextTrials, withConfirmed } from "./next-trial.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { centresOf, drawnQuestion } from "./simulated-trial.ts";

type Datum = QuestionCoupon["datum"];

const question = (data: Record<string, Datum[]>, more: Partial<Question> = {}): Question =>
  smallQuestion(withData(data), { margin: 1.5, ...more });
const week = (...starts: number[]): Datum[] => starts.map((left) => ({ left, right: left + 7 }));
const shed = question({
  control: week(7, 14, 21, 21, 28, 35),
  wax: week(14, 14, 21, 28, 35, 49),
  oil: week(7, 14, 14, 21, 28, 28),
});

describe("the next trial", () => {
  const next = nextTrials(shed, answerQuestion(shed));

  test("one for each comparison with the control that is open, from the formula's number on", () =>
    expect(next.map(({ first, second, start }) => [first, second, start])).toEqual(
      answerQuestion(shed)
        .findings.filter((one) => one.second === "control" && one.wouldTell !== null)
        .map((one) => [one.first, one.second, one.wouldTell![0]!.perTreatment]),
    ));

  test("the pair stands at the margin, to the side where it was seen; the others as estimated", () => {
    const [wax, oil] = next.map((one) => centresOf(one.trialOf(8), 0));
    expect(Math.exp(wax!.wax! - wax!.control!)).toBeCloseTo(1.5, 10);
    expect(Math.exp(oil!.oil! - oil!.control!)).toBeCloseTo(1 / 1.5, 10);
    expect(wax!.oil).not.toBe(oil!.oil);
    expect(wax!.control).toBe(oil!.control);
  });

  test("so many of each, looked at on this trial's days", () => {
    const drawn = drawnQuestion({ ...next[0]!.trialOf(9), lostShare: 0 }, 0);
    expect(drawn.coupons).toHaveLength(27);
    const days = new Set([7, 14, 21, 28, 35, 42, 49, 56]);
    for (const { datum } of drawn.coupons)
      expect("right" in datum && (datum.right === null || days.has(datum.right))).toBe(true);
  });

  test("blocks of as many as this trial had", () => {
    const classes = (...values: number[]): Datum[] => values.map((value) => ({ value }));
    const graded = question(
      { control: classes(4, 5, 6, 6, 7, 5), wax: classes(5, 5, 7, 6, 8, 6) },
      { response: "grade", kind: "ordinal", unit: "classes", margin: 1, scale: { best: 10, worst: 0 } },
    );
    const blocked = { ...graded, coupons: graded.coupons.map((one, at) => ({ ...one, block: String((at % 6) >> 1) })) };
    const { coupons } = nextTrials(blocked, answerQuestion(blocked))[0]!.trialOf(8).question;
    expect(coupons.filter((one) => one.treatment === "wax" && one.block === "1")).toHaveLength(2);
    expect(new Set(coupons.map((one) => one.block)).size).toBe(4);
  });

  test("yes and no has no formula: the search begins somewhere, inside 0 to 1", () => {
    const yes = (count: number): Datum[] => Array.from({ length: 6 }, (_, at) => ({ value: at < count ? 1 : 0 }));
    const survived = question({ control: yes(3), wax: yes(5) }, { response: "survived", kind: "binary", margin: 0.3 });
    const [one] = nextTrials(survived, answerQuestion(survived));
    expect(one!.start).toBe(8);
    expect(centresOf(one!.trialOf(8), 0)).toEqual({ control: 0.5, wax: 0.8 });
  });
});

test("a sentence that says what would tell says the confirmed number", () => {
  const few = question({ control: week(7, 14, 21), wax: week(21, 28, 49) });
  const [finding] = answerQuestion({ ...few, coupons: few.coupons.slice(0, 4) }).findings;
  const asked = finding!.wouldTell![0]!.perTreatment;
  expect(finding!.sentence).toContain(`${asked} coupons`);
  const confirmed = withConfirmed(few, finding!, [
    { power: 0.8, perTreatment: 29 },
    { power: 0.9, perTreatment: null },
  ]);
  expect(confirmed.sentence).toContain("29 coupons");
  expect(confirmed.sentence).toContain("more than 30 in nine of ten");
});

describe("the smallest number with the asked chance", () => {
  const rising = (halfAt: number) => async (each: number) => each / (each + halfAt);
  test.each([
    ["up from two below the formula", 6, 2, 8, 18],
    ["down, when the formula asked for too many", 14, 1, 4, 9],
    ["never fewer than an exact test needs", 4, 0.1, 4, 4],
    ["out of reach beyond 30", 10, 5, 20, null],
  ])("%s", async (_, start, halfAt, usual, sure) =>
    expect(await confirmedUnits({ kind: "time" }, start, rising(halfAt))).toEqual([
      { power: 0.8, perTreatment: usual },
      { power: 0.9, perTreatment: sure },
    ]),
  );
});
