/** Wear looked at every ten strokes, from what was counted to the finding; checked against R. */
import { expect, test } from "vitest";
import { smallPlan, smallRecord } from "../../../tests/small-trial.ts";
import { answerQuestion } from "./answer-question.ts";
import { declaredQuestions } from "./trial-questions.ts";
import type { Plan, WearTest } from "./trial-record.ts";
import type { WearConditions } from "./wear-conditions.ts";

/** Still whole after, worn through by: at the first look, between looks, and not within the test. */
const counted = {
  oiled: [
    [10, 20],
    [20, 30],
    [10, 20],
    [0, 10],
    [30, 40],
  ],
  phosphated: [
    [40, 60],
    [60, 80],
    [30, 40],
    [80, null],
    [50, 60],
  ],
} as const;
const rows = (["oiled", "phosphated"] as const).flatMap((treatment, group) =>
  counted[treatment].map(([left, right], at) => ({ coupon: String(5 * group + at + 1), treatment, left, right })),
);
const question = (place: "face" | "edge") =>
  ({ response: "strokes to breakthrough", place, family: "control", margin: 1.5, atDay: null }) as const;
const plan: Plan = {
  ...smallPlan,
  treatments: smallPlan.treatments.map((one) => ({
    ...one,
    route: one.route?.map((step) => ({ ...step, treated: "alone" as const })) ?? null,
  })),
  questions: [question("face"), question("edge")],
  places: rows.map(({ coupon, treatment }, at) => ({
    ...{ coupon, treatment, block: "A", rack: { row: 1, column: at + 1 }, spare: false },
  })),
};
const pad: WearConditions = {
  ...{ motion: "strokes", medium: "felt, oiled", grit: null, loadG: 500, perMinute: 60, by: "jig" },
};
const wear = (place: "face" | "edge", conditions = pad): WearTest[] =>
  rows.map(({ coupon, left, right }) => ({
    kind: "wear test",
    ...{ coupon, place, when: { date: "2026-05-01" }, blind: true, note: "", conditions },
    // An edge wears through in the first look whatever is on it.
    ...(place === "face" ? { leftStrokes: left, rightStrokes: right } : { leftStrokes: 0, rightStrokes: 10 }),
  }));
const answered = (bodies: WearTest[]) =>
  declaredQuestions(smallRecord(bodies, plan)).map((one) => one.question && answerQuestion(one.question));

/**
 * R 4.2.2, survival 3.5.3:
 *   d <- data.frame(l = c(10,20,10,NA,30, 40,60,30,80,50), r = c(20,30,20,10,40, 60,80,40,NA,60), p = rep(0:1, each = 5))
 *   exp(coef(survreg(Surv(l, r, type = "interval2") ~ p, data = d, dist = "weibull"))[["p"]])
 */
const ratioByR = 2.99391550156;

test("both ends of every count reach the finding: its ratio is that of an interval-censored fit in R", () => {
  const [face] = answered(wear("face"));
  const effect = face?.findings[0]?.effect;
  expect(effect?.name).toBe("stroke ratio");
  expect(effect?.value).toBeCloseTo(ratioByR, 4);
  expect(effect!.lower!).toBeGreaterThan(1);
  expect(effect!.upper!).toBeGreaterThan(ratioByR);
});

test("edges are another question: they change nothing of the face, and alike they tell nothing apart", () => {
  const [alone] = answered(wear("face"));
  const [face, edge] = answered([...wear("face"), ...wear("edge")]);
  expect(face?.findings[0]?.effect).toEqual(alone?.findings[0]?.effect);
  expect(edge?.findings[0]?.verdict).not.toBe("shown");
  expect(edge?.findings[0]?.effect?.value ?? null).toBeNull();
});

test.each([
  ["strokes", "strokes"],
  ["drags", "drags"],
  ["turns of a tumbler", "turns"],
  ["minutes in a tumbler", "minutes"],
] as const)("what was counted in %s is answered in %s, with the same numbers", (motion, unit) => {
  const [declared] = declaredQuestions(smallRecord(wear("face", { ...pad, motion }), plan));
  const finding = answerQuestion(declared!.question!).findings[0]!;
  expect(declared?.question?.unit).toBe(unit);
  expect(finding.effect?.value).toBeCloseTo(ratioByR, 4);
  const said = [finding.sentence, ...finding.because].join(" ");
  expect(said).toContain(`times as many ${unit}`);
  for (const other of ["strokes", "drags", "turns", "minutes"].filter((one) => one !== unit))
    expect(said).not.toContain(` ${other}`);
});
