import { describe, expect, test } from "vitest";
import { answerQuestion } from "./answer-question.ts";
import { drawPlan } from "./draw-plan.ts";
import { requireAcceptable } from "./observation-rules.ts";
import { photoAgreements, photosOfPass, photosToGrade } from "./photo-gradings.ts";
import { photoPass } from "./second-pass.ts";
import { trialQuestions } from "./trial-questions.ts";
import { type Observation, type ObservationBody, trialRecord } from "./trial-record.ts";

const plan = drawPlan({
  question: "Does wax keep longer?",
  questions: [{ response: "rusted area", family: "pairs", margin: null, atDay: null }],
  treatments: ["oil", "wax"].map((name) => ({
    ...{ name, role: "finish", route: [{ name, treated: "alone" }], coupons: 6 },
  })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  ...{ edgeBandMm: 5, rustThresholdPercent: 0.01, lookDays: [7], blocks: 1 },
  ...{ rackColumns: 6, sparesOfEach: 0, seed: 7 },
});
const coupons = plan.places.map(({ coupon }) => coupon);
/** 0.02 to 41 %, doubling from coupon to coupon; oil the rustier. */
const areas = new Map(
  ["wax", "oil"].flatMap((name, group) =>
    plan.places
      .filter(({ treatment }) => treatment === name)
      .map(({ coupon }, at) => [coupon, 0.02 * 2 ** (6 * group + at)] as const),
  ),
);
const of = (coupon: string) => ({ coupon, face: "front", when: { day: 7 } });
let written = 0;
const observed = (body: ObservationBody, by = "Ada"): Observation => ({
  ...{ id: String(written++), recordedAt: "2026-04-01T08:00:00Z", by, corrects: null, body },
});
const photo = (coupon: string) =>
  observed({
    ...{ kind: "look", ...of(coupon), rustedPercent: areas.get(coupon)!, edgePercent: null },
    ...{ how: "photo", blind: true, measurement: "0d7a3a50-4c0b-4f0e-9d53-5a1d7b0c8e11" },
  });
const grading = (coupon: string, rustedPercent: number, by = "Ines") =>
  observed({ kind: "photo grading", ...of(coupon), rustedPercent }, by);
const start = [observed({ kind: "plan", plan }), ...coupons.map(photo)];
const recordOf = (more: Observation[]) => trialRecord({ id: "t", name: "shed" }, [...start, ...more]);
const twiceTooHigh = (by?: string) => coupons.map((coupon) => grading(coupon, areas.get(coupon)! * 2, by));

describe("photographs graded by eye", () => {
  test("a look without a photograph is refused", () => {
    const trial = { id: "t", name: "shed", observations: start };
    expect(() => requireAcceptable(trial, grading(coupons[0]!, 3))).not.toThrow();
    const elsewhere = observed({ kind: "photo grading", ...of(coupons[0]!), face: "back", rustedPercent: 3 });
    expect(() => requireAcceptable(trial, elsewhere)).toThrow(/a look with a photograph of that face/);
  });

  test("each photograph comes once in a pass, shuffled anew in the next and for another inspector", () => {
    const first = photosToGrade(recordOf([]), "Ines");
    expect(first).toMatchObject({ pass: 1, of: Math.min(photosOfPass, 12) });
    expect(new Set(first.left.map(({ coupon }) => coupon))).toEqual(new Set(coupons));
    const begun = photosToGrade(recordOf([grading(first.left[0]!.coupon, 1)]), "Ines");
    expect(begun.left).toEqual(first.left.slice(1));
    const second = photosToGrade(recordOf(twiceTooHigh()), "Ines");
    expect(second.pass).toBe(2);
    expect(second.left).toHaveLength(12);
    expect(second.left).not.toEqual(first.left);
    expect(photosToGrade(recordOf([]), "Ada").left).not.toEqual(first.left);
  });

  test("with the measurement, with oneself and with another", () => {
    const agreements = photoAgreements(
      recordOf([...twiceTooHigh(), ...twiceTooHigh(), ...coupons.map((one) => grading(one, areas.get(one)!, "Bea"))]),
    );
    expect(agreements.map(({ by, against }) => `${by} against ${against}`)).toEqual([
      "Ines against the measured areas",
      "Ines against an earlier pass",
      "Ines against Bea",
      "Bea against the measured areas",
    ]);
    expect(agreements.map(({ agreement }) => agreement.all?.lean.toFixed(3))).toEqual([
      "2.000",
      "1.000",
      "2.000",
      "1.000",
    ]);
  });

  test("gradings that go against the measured areas keep a comparison at suggested, and name it; they change no number", () => {
    const verdictOf = (more: Observation[]) => {
      const [question] = trialQuestions(recordOf(more));
      return answerQuestion(question!);
    };
    const [alone, capped] = [verdictOf([]), verdictOf(coupons.map((one) => grading(one, 0.5 / areas.get(one)!)))];
    expect(alone.findings[0]!.verdict).toBe("shown");
    expect(capped.findings[0]!.verdict).toBe("suggested");
    expect(capped.findings[0]!.effect).toEqual(alone.findings[0]!.effect);
    expect(capped.findings[0]!.because.join()).toMatch(/blind gradings of the photographs agreed poorly/);
    expect(verdictOf(twiceTooHigh()).findings[0]!.verdict).toBe("shown");
  });

  test("nine gradings say nothing of a verdict yet, ten do", () => {
    expect(photoPass(recordOf(twiceTooHigh().slice(0, 9)))).toBeNull();
    expect(photoPass(recordOf(twiceTooHigh().slice(0, 10)))).toMatchObject({ looks: 10 });
  });
});
