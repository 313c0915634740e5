import { describe, expect, test } from "vitest";
import { drawPlan } from "./draw-plan.ts";
import { requireAcceptable } from "./observation-rules.ts";
import { plannedQuestion } from "./planned-question.ts";
import { trialQuestions } from "./trial-questions.ts";
import { type Observation, trialRecord } from "./trial-record.ts";

const plan = drawPlan({
  question: "Does paint hold on phosphate?",
  questions: [
    { response: "time to first rust", family: "pairs", margin: null, atDay: null },
    { response: "tape class", family: "pairs", margin: null, atDay: null },
  ],
  treatments: ["bare paint", "phosphate, paint"].map((name) => ({
    name,
    role: "finish",
    route: [{ name, treated: "alone" }],
    coupons: 4,
  })),
  testCoupons: [{ test: "tape test", ofEach: 3 }],
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [7],
  blocks: 1,
  rackColumns: 4,
  sparesOfEach: 0,
  seed: 7,
});
const kept = plan.places.filter((place) => place.keptFor === "tape test").map((place) => place.coupon);
const hung = plan.places.filter((place) => place.keptFor === undefined).map((place) => place.coupon);
const observation = (body: Observation["body"], id = "x"): Observation => ({
  id,
  recordedAt: "2026-04-01T08:00:00Z",
  by: "A",
  corrects: null,
  body,
});
const tape = (coupon: string) =>
  observation(
    { kind: "tape test", coupon, when: { date: "2026-04-02" }, tapeClass: "4B", blind: true, note: "" },
    `tape ${coupon}`,
  );

describe("coupons kept for a destructive test", () => {
  test("their n is theirs: four of each for rust, three of each for the tape", () =>
    expect(plan.questions.map((declared) => plannedQuestion(plan, declared).coupons.length)).toEqual([8, 6]));

  test("they never go out", () => {
    const trial = { id: "t", name: "shed", observations: [observation({ kind: "plan", plan }, "plan")] };
    const out = (coupon: string) =>
      observation({ kind: "put out", site: "shed", date: "2026-04-03", coupons: [coupon] });
    expect(() => requireAcceptable(trial, out(hung[0]!))).not.toThrow();
    expect(() => requireAcceptable(trial, out(kept[0]!))).toThrow(
      /a coupon that goes out; this one is kept for the tape test/,
    );
  });

  test("they alone answer the tape test: after weeks outdoors it is another test, and the answer says who was left out", () => {
    const record = trialRecord({ id: "t", name: "shed" }, [
      observation({ kind: "plan", plan }, "plan"),
      ...[...kept, hung[0]!].map(tape),
    ]);
    const [question] = trialQuestions(record);
    expect(question!.coupons.map((one) => one.coupon).sort()).toEqual([...kept].sort());
    expect(question!.notes).toContain(`Left out: coupons ${hung[0]}, which were not kept for the tape test.`);
  });
});
