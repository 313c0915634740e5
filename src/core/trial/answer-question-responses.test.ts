import { describe, expect, test } from "vitest";
import { smallQuestion, times, values } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import type { Finding } from "./finding.ts";
import type { Question } from "./question.ts";

const only = (question: Question): Finding => answerQuestion(question).findings[0]!;

describe("other responses", () => {
  const grades = { kind: "ordinal", response: "grade", unit: "classes", scale: { best: 10, worst: 0 } } as const;

  test("grades: shift in classes, and p of the rank-sum test with its ties", () => {
    const finding = only(
      smallQuestion({ A: values(9, 9, 8, 9, 10), control: values(6, 7, 6, 5, 7) }, { ...grades, margin: 1 }),
    );
    expect(finding.effect).toMatchObject({ name: "class shift", value: 3, confidence: 0.95 });
    expect(finding.p).toBeCloseTo(2 / 252, 12);
    expect(finding).toMatchObject({ verdict: "shown" });
    expect(finding.sentence).toMatch(/^A beat control: 3 classes better \(95 % between 2 and 4\)/);
  });

  test("grades all at the best: a finer or harsher test", () =>
    expect(only(smallQuestion({ A: values(10, 10, 10, 10), control: values(10, 10, 10) }, grades))).toMatchObject({
      verdict: "cannot be told",
      effect: null,
      // 1 - 0.05^(1/4) and 1 - 0.05^(1/3): "none fell short" is a bound, not a zero.
      because: [
        "every coupon of both came out at the best end",
        "of 4 A none fell short: up to 52.7 % of them could fall short (95 %)",
        "of 3 control none fell short: up to 63.2 % of them could fall short (95 %)",
      ],
    }));

  const area = {
    kind: "area",
    response: "rusted area",
    unit: "%",
    better: "lower",
    detectionLimitPercent: 0.01,
  } as const;

  test("areas: a ratio below 1 is better; too much of it unseen: Cliff's delta", () => {
    const ratio = only(smallQuestion({ A: values(0.1, 0.2, 0.15, 0.3), control: values(2, 3, 4, 2.5) }, area));
    expect(ratio.effect!.name).toBe("area ratio");
    expect(ratio.effect!.upper!).toBeLessThan(1);
    expect(ratio.verdict).toBe("shown");
    const unseen = only(smallQuestion({ A: values(0, 0, 0.005, 0.3), control: values(2, 3, 4, 2.5) }, area));
    expect(unseen.effect).toMatchObject({ name: "Cliff's delta", value: 1 });
    expect(unseen.verdict).toBe("shown");
  });

  const survived = { kind: "binary", response: "survived", unit: "" } as const;

  test("yes and no: Fisher's test, difference of shares by Newcombe", () => {
    // 5 of 5 against 0 of 5: 2 of 252.
    const finding = only(smallQuestion({ A: values(1, 1, 1, 1, 1), control: values(0, 0, 0, 0, 0) }, survived));
    expect(finding.p).toBeCloseTo(2 / 252, 12);
    expect(finding.effect).toMatchObject({ name: "difference of shares", value: 1 });
    expect(finding.wouldTell).toBeNull();
    expect(only(smallQuestion({ A: values(1, 1, 1), control: values(1, 1, 1) }, survived)).verdict).toBe(
      "cannot be told",
    );
  });

  const mass = { kind: "continuous", response: "coating mass", unit: "g/m²" } as const;

  test("measured values: pooled t by hand, with the guard above it", () => {
    // {5, 6, 7, 6} and {8, 9, 10, 9}: difference -3, pooled variance 2/3, se 0.577, t -5.196, 6 degrees of freedom.
    const finding = only(smallQuestion({ A: values(5, 6, 7, 6), control: values(8, 9, 10, 9) }, mass));
    expect(finding.effect!.value).toBeCloseTo(-3, 12);
    expect(finding.effect!.upper! - finding.effect!.value!).toBeCloseTo(2.4469119 * Math.sqrt(1 / 3), 5);
    expect(finding.p).toBeCloseTo(0.00202, 5);
    // Two treatments of up to 8: the guard's Welch p, here the same, times 1.2.
    expect(finding.pAdjusted).toBeCloseTo(1.2 * finding.p!, 9);
    expect(finding).toMatchObject({ pMin: null, verdict: "shown" });
    expect(finding.sentence).toMatch(/^Control beat A: 3 g\/m² higher/);
  });

  test("three each: four degrees of freedom suggest at most; no scatter at all leaves it to the exact test", () => {
    expect(only(smallQuestion({ A: values(5, 6, 7), control: values(18, 19, 20) }, mass)).verdict).toBe("suggested");
    const flat = only(smallQuestion({ A: values(5, 5, 5, 5), control: values(8, 8, 8, 8) }, mass));
    expect(flat.p).toBeCloseTo(2 / 70, 12);
    expect(flat.effect).toMatchObject({ value: -3, lower: null, upper: null });
  });

  test("equivalence needs a margin and says how little is left", () => {
    const alike = smallQuestion(
      { A: values(5, 5.1, 4.9, 5, 5.05), control: values(5, 5.05, 4.95, 5, 5.1) },
      { ...mass, margin: 0.5 },
    );
    expect(only(alike)).toMatchObject({ verdict: "equivalent within the margin", margin: 0.5 });
    expect(only(alike).sentence).toMatch(
      /are alike for your purpose: the difference is less than 0.5 g\/m² either way \(90 % between/,
    );
    expect(only({ ...alike, margin: null })).toMatchObject({ verdict: "not told apart", equivalence: null });
    expect(() =>
      only({
        ...alike,
        kind: "time",
        margin: 1,
        coupons: smallQuestion({ A: times(3, 28, 35), control: times(3, 0, 7) }).coupons,
      }),
    ).toThrow(/^margin is 1; expected a factor above 1/);
  });
});
