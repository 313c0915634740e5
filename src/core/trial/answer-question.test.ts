import { describe, expect, test } from "vitest";
import { between, type SmallCoupon, smallQuestion, times } from "../../../tests/small-question.ts";
import { answerQuestion } from "./answer-question.ts";
import type { Finding } from "./finding.ts";
import type { Question } from "./question.ts";

const only = (question: Question): Finding => answerQuestion(question).findings[0]!;
const looks = (...intervals: [number, number | null][]): SmallCoupon[] =>
  intervals.map(([left, right]) => between(left, right));

/** Wholly apart: the control rusts in the first two weeks, the finish from the fifth on. */
const early = (n: number) =>
  looks(
    ...(
      [
        [0, 7],
        [7, 14],
        [0, 7],
        [7, 14],
        [0, 7],
        [7, 14],
      ] as [number, number][]
    ).slice(0, n),
  );
const late = (n: number) =>
  looks(
    ...(
      [
        [28, 35],
        [35, 42],
        [42, 49],
        [49, 56],
        [56, 63],
        [35, 42],
      ] as [number, number][]
    ).slice(0, n),
  );

describe("the awkward small trials", () => {
  test("one coupon each says nothing, and what would", () => {
    const finding = only(smallQuestion({ A: late(1), control: early(1) }));
    expect(finding).toMatchObject({
      n: [1, 1],
      effect: null,
      p: null,
      pAdjusted: null,
      equivalence: null,
      pMin: 1,
      verdict: "cannot be told",
      // 2 ((1.960 + 0.842) x 0.525 / ln 2)² = 9.0 and 12.06: shape 2 is assumed, factor 2 to be found.
      wouldTell: [
        { power: 0.8, perTreatment: 10 },
        { power: 0.9, perTreatment: 13 },
      ],
    });
    expect(finding.sentence).toMatch(
      /^About A against control this trial can say nothing, because there is one coupon of A\. To find a factor of 2, 10 coupons/,
    );
  });

  test.each([
    // coupons, pMin, verdict when wholly apart
    [2, 1 / 3, "cannot be told"],
    [3, 0.1, "suggested"],
    [4, 2 / 70, "shown"],
    [6, 2 / 924, "shown"],
  ] as const)("%d against as many, wholly apart", (n, pMin, verdict) => {
    const finding = only(smallQuestion({ A: late(n), control: early(n) }));
    expect(finding.pMin).toBeGreaterThanOrEqual(pMin - 1e-12);
    expect(finding.p).toBeCloseTo(finding.pMin!, 12);
    expect(finding.verdict).toBe(verdict);
  });

  test("three against three: p 0.1, so suggested at most, and it says why", () => {
    const finding = only(
      smallQuestion({ A: looks([28, 35], [35, 42], [42, 49]), control: looks([0, 7], [7, 14], [14, 21]) }),
    );
    expect(finding).toMatchObject({ p: 0.1, pAdjusted: 0.1, pMin: 0.1, verdict: "suggested" });
    expect(finding.because).toContain("even the clearest result with 3 each would come by chance once in 10 trials");
    expect(finding.sentence).toMatch(
      /^It looks as if A beats control .* but even the clearest result .* Do not build on it yet\.$/,
    );
  });

  test("every control rusty by day 7, every finish clean at day 84: at least 12 times later, and no percent", () => {
    const finding = only(smallQuestion({ A: times(4, 84, null), control: times(4, 0, 7) }));
    expect(finding.effect).toEqual({ name: "time ratio", value: null, lower: 12, upper: null, confidence: 0.95 });
    expect(finding.sentence).toBe(
      "A beat control: at least 12 times later. No A had rusted by day 84, every control had by day 7. With 4 and 4 coupons: had the treatments made no difference, a result this strong would turn up in at most about one such trial in 35.",
    );
    const small = only(smallQuestion({ A: times(3, 84, null), control: times(3, 0, 7) }));
    expect(small.effect).toMatchObject({ lower: 12, confidence: 0.9 });
  });

  test("no rust on any: a longer trial, not more coupons", () => {
    const finding = only(smallQuestion({ A: times(4, 84, null), control: times(4, 84, null) }));
    expect(finding).toMatchObject({
      p: null,
      pAdjusted: null,
      effect: null,
      verdict: "cannot be told",
      wouldTell: null,
    });
    expect(finding.sentence).toBe(
      "About A against control this trial can say nothing, because no coupon of either rusted in 12 weeks. A longer or harsher trial would tell: at least 168 days.",
    );
  });

  test("all rusty at the first look", () =>
    expect(only(smallQuestion({ A: times(4, 0, 7), control: times(5, 0, 7) })).because).toEqual([
      "all rusted before the first look",
      "the times of both lie at or below 7 days",
    ]));

  test("all between the same two looks: nothing to rearrange", () =>
    expect(only(smallQuestion({ A: times(4, 7, 14), control: times(4, 7, 14) }))).toMatchObject({
      pMin: 1,
      verdict: "cannot be told",
    }));

  test("six in three blocks of two", () => {
    const inBlocks = (coupons: SmallCoupon[]) => coupons.map((coupon, at) => ({ ...coupon, block: String(at >> 1) }));
    const apart = looks([28, 35], [35, 42], [28, 35], [35, 42], [28, 35], [35, 42]);
    const finding = only(
      smallQuestion({
        A: inBlocks(apart),
        control: inBlocks(looks([0, 7], [7, 14], [0, 7], [7, 14], [0, 7], [7, 14])),
      }),
    );
    expect(finding.pMin).toBeCloseTo(2 / 216, 12);
    expect(finding).toMatchObject({ n: [6, 6], verdict: "shown" });
  });

  test("one coupon per block: five blocks can only suggest, six can show", () => {
    const inBlocks = (n: number) => {
      const one = (coupons: SmallCoupon[]) => coupons.map((coupon, at) => ({ ...coupon, block: String(at) }));
      return only(smallQuestion({ A: one(late(n)), control: one(early(n)) }));
    };
    expect(inBlocks(5)).toMatchObject({ p: 0.0625, verdict: "suggested" });
    expect(inBlocks(6)).toMatchObject({ p: 0.03125, verdict: "shown" });
  });

  test("unequal groups and ties", () => {
    const finding = only(smallQuestion({ A: times(5, 28, 35), control: times(3, 7, 14) }));
    // Scores 5 alike and 3 alike: one of the 56 ways is as far out on the low side, none on the other.
    expect(finding).toMatchObject({ n: [5, 3], verdict: "shown" });
    expect(finding.p).toBeCloseTo(1 / 56, 12);
  });

  test("two in one group is suggested at most", () => {
    const finding = only(smallQuestion({ A: times(6, 84, null), control: times(2, 0, 7) }));
    // The two earliest of eight: one of 28.
    expect(finding.p).toBeCloseTo(1 / 28, 12);
    expect(finding).toMatchObject({
      verdict: "suggested",
      because: expect.arrayContaining(["there are only two coupons of control"]),
    });
  });
});

describe("dips and bath runs", () => {
  const inBatch = (coupons: SmallCoupon[], batch: string | null) =>
    coupons.map((coupon) => ({ ...coupon, applications: { batch } }));
  const recorded = { treatedSeparately: "recorded" } as const;

  test("six coupons in one dip against six in another: one unit each", () => {
    const answer = answerQuestion(
      smallQuestion({ A: inBatch(late(6), "a"), control: inBatch(early(6), "c") }, recorded),
    );
    expect(answer.findings[0]).toMatchObject({ n: [1, 1], verdict: "cannot be told", p: null });
    expect(answer.units).toEqual({ A: 6, control: 6 });
    expect(answer.confounded).toEqual([{ circumstance: "batch", treatments: ["A", "control"], how: "fully" }]);
    expect(answer.overall).toBeNull();
  });

  test("one bath run beside an untreated control: suggested, in this one batch", () => {
    const answer = answerQuestion(
      smallQuestion({ A: inBatch(late(6), "run"), control: inBatch(early(6), null) }, recorded),
    );
    expect(answer.findings[0]).toMatchObject({ n: [6, 6], verdict: "suggested" });
    expect(answer.findings[0]!.sentence).toContain("in this one batch");
    expect(answer.confounded).toEqual([{ circumstance: "batch", treatments: ["A", "control"], how: "heavily" }]);
  });

  test("both in the same bath run: each coupon is a unit and nothing is confounded", () => {
    const answer = answerQuestion(
      smallQuestion({ A: inBatch(late(6), "run"), control: inBatch(early(6), "run") }, recorded),
    );
    expect(answer.findings[0]).toMatchObject({ n: [6, 6], verdict: "shown" });
    expect(answer.confounded).toEqual([]);
  });

  test("nobody said: the sentence carries the condition", () => {
    const finding = only(smallQuestion({ A: late(6), control: early(6) }, { treatedSeparately: "assumed" }));
    expect(finding.sentence).toMatch(/^A beat control if each coupon was treated separately: /);
  });
});

describe("families", () => {
  const four = {
    A: late(6),
    control: early(6),
    B: early(6),
    C: looks([14, 21], [21, 28], [14, 21], [28, 35], [21, 28], [28, 35]),
  };

  test("against the control first, then the others among themselves, in the order of the table", () => {
    const pairs = answerQuestion(smallQuestion(four)).findings.map((finding) => [finding.first, finding.second]);
    expect(pairs).toEqual([
      ["A", "control"],
      ["B", "control"],
      ["C", "control"],
      ["A", "B"],
      ["A", "C"],
      ["B", "C"],
    ]);
  });

  test("the gate is shut while one finish equals the control", () => {
    const { findings } = answerQuestion(smallQuestion(four));
    expect(findings.map((finding) => finding.verdict)).toEqual([
      "shown",
      "not told apart",
      "shown",
      "suggested",
      "suggested",
      "suggested",
    ]);
    expect(findings[3]!.because[0]).toMatch(/only after each was told apart from the control, and not each was/);
  });

  test("all pairs: declared as such, the same difference is shown", () => {
    const { findings } = answerQuestion(smallQuestion(four, { family: "pairs", control: null }));
    expect(findings.map((finding) => `${finding.first}-${finding.second}: ${finding.verdict}`)).toContain("A-B: shown");
    expect(findings).toHaveLength(6);
  });

  test("a treatment of one coupon is taken out, so that its p of 1 sinks nobody", () => {
    const answer = answerQuestion(smallQuestion({ A: late(6), control: early(6), B: late(1) }));
    expect(answer.findings[0]).toMatchObject({ verdict: "shown" });
    expect(answer.findings[0]!.pAdjusted).toBe(answer.findings[0]!.p);
    expect(answer.findings[1]).toMatchObject({ verdict: "cannot be told", pAdjusted: null, pMin: 1 });
    expect(answer.notes.join()).toContain("B against control");
  });

  test("adjusted p is never below the pair's own", () => {
    for (const finding of answerQuestion(smallQuestion(four)).findings)
      expect(finding.pAdjusted!).toBeGreaterThanOrEqual(finding.p! - 1e-12);
  });

  test("not declared, not randomised, not blind: suggested at most", () => {
    const trial = { A: late(6), control: early(6) };
    for (const said of [{ declared: false }, { randomised: false }, { blind: false }])
      expect(only(smallQuestion(trial, said)).verdict).toBe("suggested");
  });

  test("witnesses stand outside, but are drawn", () => {
    const question = smallQuestion(
      { A: late(4), control: early(4), bare: times(2, 0, 1) },
      { treatments: ["A", "control"], witnesses: ["bare"] },
    );
    const answer = answerQuestion(question);
    expect(answer.findings).toHaveLength(1);
    expect(answer.points).toHaveLength(10);
  });
});

describe("audit and deviations", () => {
  const seenBy = (coupons: SmallCoupon[], inspector: (at: number) => string) =>
    coupons.map((coupon, at) => ({ ...coupon, circumstances: { inspector: inspector(at) } }));

  test.each<[string, (at: number) => string, (at: number) => string, string | null, string]>([
    ["each inspector saw one treatment", () => "Ann", () => "Bo", "fully", "cannot be told"],
    ["one coupon apart from that", (at) => (at === 0 ? "Bo" : "Ann"), () => "Bo", "heavily", "suggested"],
    ["both saw half", (at) => (at < 3 ? "Bo" : "Ann"), (at) => (at < 3 ? "Bo" : "Ann"), null, "shown"],
    ["one inspector for all", () => "Ann", () => "Ann", null, "shown"],
    ["a name for each coupon", (at) => `A${at}`, (at) => `C${at}`, null, "shown"],
  ])("%s", (_, ofFinish, ofControl, how, verdict) => {
    const answer = answerQuestion(
      smallQuestion({ A: seenBy(late(6), ofFinish), control: seenBy(early(6), ofControl) }),
    );
    expect(answer.findings[0]!.verdict).toBe(verdict);
    expect(answer.confounded).toEqual(
      how === null ? [] : [{ circumstance: "inspector", treatments: ["A", "control"], how }],
    );
  });

  test("a verdict that hangs on deviating coupons is suggested, and they are named", () => {
    const deviating = looks([84, null], [84, null], [84, null]).map((coupon) => ({
      ...coupon,
      deviation: "oiled twice",
    }));
    const question = smallQuestion({
      A: [...deviating, ...looks([28, 35], [0, 7], [14, 21], [7, 14], [14, 21])],
      control: [...early(6), ...looks([7, 14], [14, 21])],
    });
    const finding = only(question);
    expect(finding.because.join()).toContain("this hangs on coupons 1, 2 and 3, which deviated: oiled twice");
    expect(finding.verdict).not.toBe("shown");
  });

  test("a deviation that changes nothing caps nothing, nor the same one on every coupon", () => {
    const one = late(6).map((coupon, at) => (at === 0 ? { ...coupon, deviation: "bath 3 K too cold" } : coupon));
    expect(only(smallQuestion({ A: one, control: early(6) })).verdict).toBe("shown");
    const all = (coupons: SmallCoupon[]) => coupons.map((coupon) => ({ ...coupon, deviation: "bath 3 K too cold" }));
    expect(only(smallQuestion({ A: all(late(6)), control: all(early(6)) })).because).toEqual([]);
  });
});

test("where all came out the same no interval is spoken of: it would reach 0 %", () => {
  const sameWeek = Array.from({ length: 4 }, () => ({ datum: { left: 7, right: 14 } }));
  const [finding] = answerQuestion(smallQuestion({ control: sameWeek, wax: sameWeek })).findings;
  expect(finding).toMatchObject({ verdict: "cannot be told", pMin: 1 });
  expect(finding!.because.join()).not.toContain("interval");
});
