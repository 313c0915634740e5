import { describe, expect, test } from "vitest";
import { answerQuestion } from "./answer-question.ts";
import { chanceSentence } from "./chance-words.ts";
import type { DeclaredQuestion } from "./declared-question.ts";
import type { DrawablePlan } from "./draw-plan.ts";
import { planAssumptions } from "./plan-assumptions.ts";
import { shownComparisons } from "./shown-comparisons.ts";
import { simulatedPlan, simulatedTruths } from "./simulated-plan.ts";
import { drawnQuestion } from "./simulated-trial.ts";
import { simulatedChances, talliedTrials } from "./simulation-tally.ts";

const order = ["thin", "middle", "thick"];
const inOrder: DeclaredQuestion = {
  response: "time to first rust",
  family: "pairs",
  margin: null,
  atDay: null,
  order,
};
const draft = (coupons: number, blocks = 1): DrawablePlan => ({
  question: "",
  questions: [inOrder],
  treatments: order.map((name) => ({ name, role: "finish", coupons, route: [{ name, treated: "alone" }] })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: Array.from({ length: 12 }, (_, at) => 7 * (at + 1)),
  blocks,
  rackColumns: 12,
  sparesOfEach: 0,
  seed: 1,
});
const trialOf = (coupons: number, size: number, blocks = 1) =>
  simulatedPlan(draft(coupons, blocks), inOrder, { better: "one", size, assumed: planAssumptions(25) });

describe("a declared order is simulated as its one test", () => {
  test("from its first to its last in equal steps of the logarithm", () =>
    expect(trialOf(5, 4).centres).toEqual([
      { thin: Math.log(25), middle: Math.log(25) + Math.log(4) / 2, thick: Math.log(25) + Math.log(4) },
    ]));

  test.each([1, 3])("shown is what the answer calls shown, in %d blocks", (blocks) => {
    const trial = trialOf(6, 2.5, blocks);
    const verdicts = Array.from({ length: 25 }, (_, at) => drawnQuestion(trial, at)).map((question) => ({
      alone: shownComparisons(question, { draws: 499 }).length > 0,
      whole: answerQuestion(question, { draws: 499 }).trend?.verdict === "shown",
    }));
    expect(verdicts.map((one) => one.alone)).toEqual(verdicts.map((one) => one.whole));
    expect(new Set(verdicts.map((one) => one.alone)).size).toBe(2);
  });

  test("one chance, of the trend; a larger rise is shown more often", () => {
    const chances = (size: number) => simulatedChances(talliedTrials(trialOf(5, size), { from: 0, to: 60 }));
    const [small, large] = [chances(1.5), chances(5)];
    expect(large.pairs).toMatchObject([{ first: "thick", second: "thin", shown: { share: large.each!.share } }]);
    expect(large.all?.share).toBe(large.each?.share);
    expect(small.each!.share).toBeLessThan(large.each!.share);
  });

  test("without any difference the trend is seldom shown, and then falsely", () => {
    const alike = { ...trialOf(5, 2), centres: [{ thin: 3, middle: 3, thick: 3 }] };
    const { each, falselyShown } = simulatedChances(talliedTrials(alike, { from: 0, to: 200 }));
    expect(each).toBeNull();
    expect(falselyShown.share).toBeLessThan(0.05 + 3 * falselyShown.error);
  });

  test("one coupon of each shows no order", () =>
    expect(simulatedChances(talliedTrials(trialOf(1, 50), { from: 0, to: 20 })).each?.share).toBe(0));

  test("its sentence names the order and what was assumed of it", () => {
    const chances = simulatedChances(talliedTrials(trialOf(6, 20), { from: 0, to: 25 }));
    expect(chanceSentence({ response: inOrder, better: "one", size: 20, each: 6, finishes: 2 }, chances)).toMatch(
      /^If every step of thin → middle → thick helped alike, so that thick held rust off 20 times as long, 6 each would show the order in /,
    );
  });

  test("there is one truth for it, and for a single finish", () => {
    expect(simulatedTruths(inOrder, 2)).toEqual(["one"]);
    expect(simulatedTruths({}, 1)).toEqual(["one"]);
    expect(simulatedTruths({}, 2)).toEqual(["one", "all"]);
  });
});
