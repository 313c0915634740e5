import { describe, expect, test } from "vitest";
import { answerQuestion } from "./answer-question.ts";
import { drawPlan } from "./draw-plan.ts";
import { lookPasses, secondPass } from "./second-pass.ts";
import { trialQuestions } from "./trial-questions.ts";
import { type Observation, type PercentLook, trialRecord } from "./trial-record.ts";

const plan = drawPlan({
  question: "Does wax keep longer?",
  questions: [{ response: "time to first rust", family: "pairs", margin: null, atDay: null }],
  treatments: ["oil", "wax"].map((name) => ({
    name,
    role: "finish",
    route: [{ name, treated: "alone" }],
    coupons: 6,
  })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [7, 14],
  blocks: 1,
  rackColumns: 6,
  sparesOfEach: 0,
  seed: 7,
});
const look = (coupon: string, day: number, rustedPercent: number, more: Partial<PercentLook> = {}): PercentLook => ({
  kind: "look",
  coupon,
  face: "front",
  when: { day },
  rustedPercent,
  edgePercent: null,
  how: "eye",
  blind: true,
  measurement: null,
  ...more,
});
const recordOf = (looks: PercentLook[]) => {
  const applied = plan.places.map(({ coupon, treatment }) => ({
    kind: "application" as const,
    step: treatment,
    coupons: [coupon],
    startedAt: "2026-04-01T08:00:00Z",
    endedAt: null,
    tempC: null,
    note: "",
  }));
  const out = {
    kind: "put out" as const,
    site: "shed",
    date: "2026-04-02",
    coupons: plan.places.map((one) => one.coupon),
  };
  const bodies: Observation["body"][] = [{ kind: "plan", plan }, ...applied, out, ...looks];
  return trialRecord(
    { id: "t", name: "shed" },
    bodies.map((body, at) => ({ id: String(at), recordedAt: "2026-04-01T08:00:00Z", by: "A", corrects: null, body })),
  );
};
const first = plan.places.map(({ coupon, treatment }) =>
  look(coupon, 14, treatment === "oil" ? 2 + Number(coupon) : 0),
);

describe("a second pass", () => {
  test("the first look counts, the second raises nothing and changes nothing", () => {
    const again = first.map((one) => ({ ...one, rustedPercent: one.rustedPercent === 0 ? 60 : 0 }));
    const [once] = trialQuestions(recordOf(first));
    const [twice] = trialQuestions(recordOf([...first, ...again]));
    expect(twice!.coupons).toEqual(once!.coupons);
    expect(lookPasses(recordOf([...first, ...again])).second).toHaveLength(12);
  });

  test.each<[string, PercentLook]>([
    ["another face", look("1", 14, 50, { face: "back" })],
    ["another day", look("1", 7, 0)],
    ["a row of a table", look("1", 14, 50, { how: "table" })],
  ])("%s is no second pass", (_, other) =>
    expect(secondPass(recordOf([...first.map((one) => ({ ...one, how: other.how })), other]))).toBeNull(),
  );

  test("a pass that knew the treatment measures nobody", () =>
    expect(secondPass(recordOf([...first, ...first.map((one) => ({ ...one, blind: false }))]))).toBeNull());

  test("the same grades again: kappa 1, and no cap", () => {
    const record = recordOf([...first, ...first]);
    expect(secondPass(record)).toEqual({ looks: 12, kappa: 1 });
    const [question] = trialQuestions(record);
    const answer = answerQuestion(question!);
    expect(answer.findings[0]!.verdict).toBe("shown");
    expect(answer.notes).toContain(
      "A second pass of 12 looks agrees with the first with a quadratic kappa of 1.00; the first counts.",
    );
  });

  test("a pass that agrees no better than chance lets nothing be more than suggested", () => {
    const mixed = first.map((one, at) => ({ ...one, rustedPercent: first[(at * 5 + 3) % 12]!.rustedPercent }));
    const record = recordOf([...first, ...mixed]);
    expect(secondPass(record)!.kappa).toBeLessThan(0.4);
    const [finding] = answerQuestion(trialQuestions(record)[0]!).findings;
    expect(finding!.verdict).toBe("suggested");
    expect(finding!.because).toEqual([
      expect.stringMatching(/^a second blind pass agreed poorly with the first \(quadratic kappa -?0\.\d\d\)$/),
    ]);
  });

  test("one class everywhere: agreement beyond chance cannot be measured", () => {
    const clean = plan.places.map(({ coupon }) => look(coupon, 14, 0));
    expect(secondPass(recordOf([...clean, ...clean]))).toEqual({ looks: 12, kappa: null });
  });
});
