/** Small invented questions for tests: a few coupons of each treatment, all else as a careful plan would have it. */
import type { Question, QuestionCoupon } from "../src/core/trial/question.ts";

export type SmallCoupon = Partial<Omit<QuestionCoupon, "datum">> & { datum: QuestionCoupon["datum"] };

/** Coupons are numbered from 1 in the order given. */
export function smallQuestion(groups: Record<string, SmallCoupon[]>, said: Partial<Question> = {}): Question {
  let number = 0;
  return {
    response: "time to first rust",
    kind: "time",
    unit: "days",
    better: "higher",
    ratio: false,
    detectionLimitPercent: null,
    scale: null,
    family: "control",
    control: "control",
    margin: null,
    treatments: Object.keys(groups),
    witnesses: [],
    coupons: Object.entries(groups).flatMap(([treatment, coupons]) =>
      coupons.map((coupon) => ({
        coupon: String(++number),
        treatment,
        block: null,
        applications: { batch: null },
        circumstances: {},
        deviation: null,
        ...coupon,
      })),
    ),
    routes: null,
    randomised: true,
    blind: true,
    declared: true,
    treatedSeparately: "confirmed",
    seed: 1,
    notes: [],
    ...said,
  };
}

/** Rust between two looks; right null: not by the last. */
export function between(left: number, right: number | null, more: Partial<QuestionCoupon> = {}): SmallCoupon {
  return { ...more, datum: { left, right } };
}

/** So many coupons alike. */
export function times(count: number, left: number, right: number | null): SmallCoupon[] {
  return Array.from({ length: count }, () => between(left, right));
}

export function values(...numbers: number[]): SmallCoupon[] {
  return numbers.map((value) => ({ datum: { value } }));
}

/** Bare data as coupons, where nothing else about them matters. */
export function withData(groups: Record<string, QuestionCoupon["datum"][]>): Record<string, SmallCoupon[]> {
  return Object.fromEntries(
    Object.entries(groups).map(([treatment, data]) => [treatment, data.map((datum) => ({ datum }))]),
  );
}
