import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import { answerQuestion } from "./answer-question.ts";
import type { Question, QuestionCoupon } from "./question.ts";
import { shownComparisons } from "./shown-comparisons.ts";

const draws = 199;
const names = ["control", "one", "two", "three"];

/** An invented trial: looks a week apart, a factor for each treatment, one coupon of a kind lost at times. */
function invented({
  seed,
  n,
  blocks,
  factors,
  family,
  margin,
  kind,
  plots = false,
}: {
  seed: number;
  /** Dealt within four runs of a bath. */
  plots?: boolean;
  n: number;
  blocks: number;
  factors: number[];
  family: Question["family"];
  margin: number | null;
  kind: "time" | "ordinal" | "area" | "binary";
}): Question {
  const { next, below } = seededRandom(seed);
  const datum = (factor: number): QuestionCoupon["datum"] => {
    const days = 20 * factor * (-Math.log(1 - next())) ** 0.5;
    if (kind === "time") {
      const left = 7 * Math.floor(days / 7);
      return left >= 56 ? { left: 56, right: null } : { left, right: left + 7 };
    }
    if (kind === "ordinal") return { value: Math.min(10, Math.floor(days / 8)) };
    return { value: kind === "binary" ? (days > 30 ? 1 : 0) : Math.min(100, 200 / days ** 2) };
  };
  const coupons = factors.flatMap((factor, at) =>
    Array.from(
      { length: Math.max(1, n - (below(4) === 0 ? 1 : 0)) },
      (_, unit): QuestionCoupon => ({
        coupon: `${at}-${unit}`,
        treatment: names[at]!,
        block: blocks === 1 ? null : String(unit % blocks),
        ...(plots ? { plot: `run ${unit % 4}` } : {}),
        applications: { batch: null },
        circumstances: { inspector: next() < 0.5 ? "A" : "B" },
        deviation: null,
        datum: datum(factor),
      }),
    ),
  );
  return {
    response: kind,
    kind,
    unit: "days",
    better: kind === "area" ? "lower" : "higher",
    ratio: false,
    detectionLimitPercent: kind === "area" ? 0.01 : null,
    scale: kind === "ordinal" ? { best: 10, worst: 0 } : null,
    family,
    control: family === "control" ? "control" : null,
    margin: kind === "binary" ? (margin === null ? null : 0.2) : margin,
    treatments: names.slice(0, factors.length),
    witnesses: [],
    coupons,
    routes: null,
    randomised: true,
    blind: true,
    declared: true,
    treatedSeparately: "confirmed",
    seed,
    notes: [],
  };
}

const shownInAnswer = (question: Question) =>
  answerQuestion(question, { draws })
    .findings.filter((finding) => finding.verdict === "shown")
    .map(({ first, second }) => `${first} > ${second}`);
const shownAtOnce = (question: Question) =>
  shownComparisons(question, { draws }).map(({ first, second }) => `${first} > ${second}`);

describe("shown, asked alone", () => {
  test("is what the whole answer says, whatever the response, layout, family and margin", () => {
    let shown = 0;
    const law = fc.property(
      fc.record({
        seed: fc.integer({ min: 1, max: 10_000 }),
        n: fc.integer({ min: 1, max: 6 }),
        blocks: fc.constantFrom(1, 2, 3),
        factors: fc.array(fc.constantFrom(1, 1, 2, 6, 9), { minLength: 2, maxLength: 4 }),
        family: fc.constantFrom("control" as const, "pairs" as const),
        margin: fc.constantFrom(null, 1.5, 12),
        plots: fc.boolean(),
        kind: fc.constantFrom("time" as const, "ordinal" as const, "area" as const, "binary" as const),
      }),
      (asked) => {
        const question = invented(asked);
        const said = shownInAnswer(question);
        shown += said.length;
        expect(shownAtOnce(question).sort()).toEqual(said.sort());
      },
    );
    fc.assert(law, { numRuns: 120, seed: 20261 });
    expect(shown).toBeGreaterThan(20);
  });

  test("drawn sets stop early and still decide alike: six each of four", () => {
    for (let seed = 1; seed <= 12; seed++) {
      const question = invented({
        seed,
        n: 7,
        blocks: 1,
        factors: [1, 1, 3, 6],
        family: "control",
        margin: null,
        kind: "time",
      });
      expect(shownAtOnce(question)).toEqual(shownInAnswer(question));
    }
  });

  test("a deviation sends it to the whole answer, which may hang on the coupon", () => {
    const question = invented({
      seed: 5,
      n: 6,
      blocks: 1,
      factors: [1, 9],
      family: "control",
      margin: 1.5,
      kind: "time",
    });
    const [first, ...rest] = question.coupons;
    const deviating = { ...question, coupons: [{ ...first!, deviation: "dropped" }, ...rest] };
    expect(shownAtOnce(deviating)).toEqual(shownInAnswer(deviating));
  });
});
