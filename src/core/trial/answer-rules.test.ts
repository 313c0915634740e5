import { describe, expect, test } from "vitest";
import { type SmallCoupon, smallQuestion, values } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import type { Question } from "./question.ts";

const grades = { kind: "ordinal", response: "grade", unit: "classes", scale: { best: 10, worst: 0 } } as const;
const masses = { kind: "continuous", response: "coating mass", unit: "g/m²", better: "higher" } as const;
const answer = (data: Record<string, SmallCoupon[]>, more: Partial<Question>) =>
  answerQuestion(smallQuestion(data, more));
const only = (data: Record<string, SmallCoupon[]>, more: Partial<Question>) => answer(data, more).findings[0]!;
const watched = (coupons: SmallCoupon[], circumstances: (at: number) => Record<string, string | number>) =>
  coupons.map((coupon, at) => ({ ...coupon, circumstances: circumstances(at) }));

describe("sentences", () => {
  test("not told apart: how far each way, in the same breath", () =>
    expect(only({ A: values(7, 8, 5, 6), control: values(6, 7, 5, 8) }, grades).sentence).toMatch(
      /^This trial does not tell (A|control) from (A|control)\. (A|Control) may still be up to \d classes? better or \d classes? worse\.$/,
    ));

  test("suggested: the interval as lower to upper, then the first reason, then the warning", () =>
    expect(
      only({ A: values(8, 8, 9, 9), control: values(5, 5, 6, 6) }, { ...grades, randomised: false }).sentence,
    ).toBe(
      "It looks as if A beats control (3 classes better, 2 to 4), but the coupons were not allotted by lot. Do not build on it yet.",
    ));

  test("fully aliased: every one of these was there, and none of those", () => {
    const finding = only(
      {
        A: watched(values(8, 8, 9, 9), () => ({ site: "shed" })),
        control: watched(values(5, 5, 6, 6), (at) => ({ site: at < 2 ? "roof" : "yard" })),
      },
      grades,
    );
    expect(finding.sentence).toContain("because every A was site shed and no control was.");
  });
});

describe("tested again within the levels of a circumstance", () => {
  const seen = (coupons: SmallCoupon[], many: number) =>
    watched(coupons, (at) => ({ inspector: at < many ? "Ann" : "Bo" }));

  test("measured values are tested again by what scatters within the levels, not by ranks of three", () => {
    // Six of eight against one of eight by one inspector: partly tied. Ten g/m² apart with a scatter of one stay clear within each.
    const finding = only(
      { A: seen(values(30, 31, 29, 30, 31, 30, 30, 31), 6), control: seen(values(20, 21, 19, 20, 21, 20, 20, 21), 1) },
      masses,
    );
    expect(finding.verdict).toBe("shown");
  });
});

describe("they all did equally well", () => {
  const alike = { A: values(20, 20.1, 19.9, 20), B: values(20, 20.1, 19.9, 20.1), C: values(20, 20.1, 20, 19.9) };
  const said = "They all did equally well: every pair is equivalent within the margin.";
  const pairs = { ...masses, family: "pairs", control: null, margin: 5 } as const;

  test("every pair passes its own test", () => expect(answer(alike, pairs).notes).toContain(said));

  test("not where the lot was not drawn, nor where another explanation stands", () => {
    expect(answer(alike, { ...pairs, randomised: false }).notes).not.toContain(said);
    const apart = Object.fromEntries(
      Object.entries(alike).map(([name, own]) => [name, watched(own, () => ({ site: name }))]),
    );
    expect(answer(apart, pairs).notes).not.toContain(said);
  });

  test("nor against a control alone: the finishes are not tested among themselves", () =>
    expect(answer(alike, { ...pairs, family: "control", control: "C" }).notes).not.toContain(said));
});

describe("deviations of two that are alike", () => {
  test("a change of sides alone caps nothing while the rest could still show a difference", () => {
    const strayed = values(20, 20.1, 19.9, 20.3).map((coupon, at) =>
      at === 3 ? { ...coupon, deviation: "bath 3 K too cold" } : coupon,
    );
    const finding = only({ A: strayed, control: values(20, 20.1, 20, 20.1) }, { ...masses, margin: 5 });
    expect(finding.verdict).toBe("equivalent within the margin");
    expect(finding.because.join()).not.toContain("hangs on");
  });
});
