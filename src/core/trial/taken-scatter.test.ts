import { describe, expect, test } from "vitest";
import { smallPlan, smallRecord } from "../../../tests/small-trial.ts";
import { answerQuestion } from "./answer-question.ts";
import type { DeclaredQuestion } from "./declared-question.ts";
import { nextTrials } from "./next-trial.ts";
import { takenScatter } from "./taken-scatter.ts";
import { trialQuestions } from "./trial-questions.ts";
import type { Plan } from "./trial-record.ts";

const rust: DeclaredQuestion = { response: "time to first rust", family: "control", margin: 1.5, atDay: null };
const value: DeclaredQuestion = {
  response: "value",
  name: "film weight",
  kind: "continuous",
  better: "higher",
  unit: "g/m2",
  ratio: false,
  scale: null,
  family: "control",
  margin: null,
  atDay: null,
};

const planOf = (questions: DeclaredQuestion[], each: number): Plan => ({
  ...smallPlan,
  questions,
  places: ["oiled", "phosphated"].flatMap((treatment, at) =>
    Array.from({ length: each }, (_, nth) => ({
      coupon: String(at * each + nth + 1),
      treatment,
      block: null,
      rack: null,
      spare: false,
    })),
  ),
});

const rusted = (days: readonly number[]) =>
  smallRecord(
    days.map((leftDays, at) => ({
      kind: "first rust" as const,
      coupon: String(at + 1),
      leftDays,
      rightDays: leftDays + 7,
      blind: true,
      note: "",
    })),
    planOf([rust], days.length / 2),
  );

describe("scatter taken over from a former trial", () => {
  const former = rusted([7, 14, 21, 21, 28, 35, 14, 14, 21, 28, 35, 49]);

  test("is what the next trial of its findings is simulated with, with what its control reached", () => {
    const [question] = trialQuestions(former);
    const [next] = nextTrials(question!, answerQuestion(question!));
    const { spread, centres } = next!.trialOf(6);
    const taken = takenScatter(former, { ...rust, margin: 3 });
    const shape = spread.of === "time" && spread.law.name === "Weibull" ? spread.law.shape : Number.NaN;
    expect(taken.scatter.shape).toBeCloseTo(shape, 1);
    expect(taken.control).toBeCloseTo(Math.exp(centres[0]!.oiled!), 0);
    expect(taken.scatter.blockLogSd).toBe(0);
    expect(taken.words).toBe(
      `Scatter from "shed trial", 12 units: Weibull shape ${taken.scatter.shape}, its cautious limit.`,
    );
  });

  test("of a measured value, in proportion to the control", () => {
    // 10, 12, 14 and 20, 22, 24: SD 2 on 4 df, its upper 70 % limit 2 sqrt(4 / 2.195) = 2.70; over the control's 12 it is 22.5 %.
    const values = [10, 12, 14, 20, 22, 24].map((measured, at) => ({
      kind: "value" as const,
      coupon: String(at + 1),
      name: "film weight",
      value: measured,
      when: null,
      how: "table" as const,
      blind: true,
      note: "",
    }));
    const taken = takenScatter(smallRecord(values, planOf([value], 3)), value);
    expect(taken.scatter.coefficientOfVariation).toBeCloseTo(0.225, 3);
    expect(taken.control).toBe(12);
  });

  test.each([
    ["another response", value, "did not ask about film weight"],
    ["a former trial with nothing seen", rust, "nothing was observed yet"],
  ] as const)("refused: %s", (_, asked, why) =>
    expect(() => takenScatter(asked === rust ? smallRecord() : former, asked)).toThrow(why),
  );
});
