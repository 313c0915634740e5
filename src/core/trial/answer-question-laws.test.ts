import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { between, type SmallCoupon, smallQuestion } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import type { Finding } from "./finding.ts";
import type { Question } from "./question.ts";

const only = (question: Question): Finding => answerQuestion(question).findings[0]!;
const looks = (...intervals: [number, number | null][]): SmallCoupon[] =>
  intervals.map(([left, right]) => between(left, right));

describe("laws", () => {
  const interval = fc
    .tuple(fc.integer({ min: 0, max: 6 }), fc.option(fc.integer({ min: 1, max: 4 }), { nil: null }))
    .map(([week, weeks]): [number, number | null] =>
      weeks === null ? [7 * week + 7, null] : [7 * week, 7 * (week + weeks)],
    );
  const group = fc.array(interval, { minLength: 2, maxLength: 5 });

  test("swapping the two treatments turns the effect and keeps p, verdict and adjusted p", () => {
    fc.assert(
      fc.property(group, group, (first, second) => {
        const pairs = { family: "pairs", control: null } as const;
        const one = only(smallQuestion({ A: looks(...first), B: looks(...second) }, pairs));
        const other = only(smallQuestion({ B: looks(...second), A: looks(...first) }, pairs));
        expect(other.verdict).toBe(one.verdict);
        expect(other.p ?? 9).toBeCloseTo(one.p ?? 9, 10);
        expect(other.pMin!).toBeCloseTo(one.pMin!, 10);
        if (one.effect?.value != null) expect(other.effect!.value! * one.effect.value).toBeCloseTo(1, 4);
        if (one.effect?.lower != null) expect(other.effect!.upper! * one.effect.lower).toBeCloseTo(1, 3);
      }),
      { numRuns: 30 },
    );
  });

  test("neither the numbers nor the order of the coupons change the answer; the same question has the same answer", () => {
    fc.assert(
      fc.property(group, group, group, (a, b, control) => {
        const question = smallQuestion({ A: looks(...a), B: looks(...b), control: looks(...control) });
        const renumbered = {
          ...question,
          coupons: [...question.coupons].reverse().map((coupon) => ({ ...coupon, coupon: `X${coupon.coupon}` })),
        };
        const [one, again, other] = [question, question, renumbered].map((asked) => answerQuestion(asked).findings);
        expect(again).toEqual(one);
        for (const [at, finding] of one!.entries()) {
          expect(other![at]!.verdict).toBe(finding.verdict);
          expect(other![at]!.pAdjusted ?? 9).toBeCloseTo(finding.pAdjusted ?? 9, 10);
        }
      }),
      { numRuns: 15 },
    );
  });

  test("a rising change of the scale of days keeps every p of times: only the order of the looks counts", () => {
    fc.assert(
      fc.property(group, group, (first, second) => {
        const stretched = (days: number) => days ** 2 + days;
        const turned = (intervals: [number, number | null][]) =>
          intervals.map(([left, right]): [number, number | null] => [
            stretched(left),
            right === null ? null : stretched(right),
          ]);
        const one = only(smallQuestion({ A: looks(...first), control: looks(...second) }));
        const other = only(smallQuestion({ A: looks(...turned(first)), control: looks(...turned(second)) }));
        expect(other.p ?? 9).toBeCloseTo(one.p ?? 9, 10);
        expect(other.pMin!).toBeCloseTo(one.pMin!, 10);
      }),
      { numRuns: 30 },
    );
  });

  test("p is never 0 and the sentence never empty", () => {
    fc.assert(
      fc.property(group, group, (first, second) => {
        const finding = only(smallQuestion({ A: looks(...first), control: looks(...second) }));
        expect(finding.p === null || finding.p > 0).toBe(true);
        expect(finding.sentence).toMatch(/^[A-Z].*\.$/);
        expect(finding.sentence).not.toMatch(/undefined|null|NaN|Infinity/);
      }),
      { numRuns: 60 },
    );
  });
});
