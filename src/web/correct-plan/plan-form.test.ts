import { describe, expect, test } from "vitest";
import { smallPlan } from "../../../tests/small-trial.ts";
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import { type DrawablePlan, drawPlan } from "../../core/trial/draw-plan.ts";
import type { Plan } from "../../core/trial/trial-record.ts";
import type { TrialForm } from "../new-trial/trial-form.ts";
import { formOfPlan, planOf } from "./plan-form.ts";

const { places: _places, allocation: _allocation, invented: _invented, ...said } = smallPlan;
const draft: DrawablePlan = {
  ...said,
  treatments: smallPlan.treatments.map((one) => ({ ...one, coupons: 4 })),
  blocks: 2,
  rackColumns: 5,
  sparesOfEach: 1,
  seed: 7,
};
const asked = { family: "pairs", margin: null, atDay: null } as const;
const questions: DeclaredQuestion[] = [
  { ...asked, response: "rusted area", atDay: 28, margin: 2 },
  { ...asked, response: "rusted area", atDay: 56 },
  { ...asked, response: "grade", scale: "d610" },
  { ...asked, response: "strokes to breakthrough", place: null },
  { ...asked, response: "tape class", named: "cross-cut" },
  {
    ...asked,
    response: "value",
    name: "coating mass",
    kind: "continuous",
    better: "higher",
    unit: "g/m²",
    ratio: true,
    scale: null,
    margin: 1.2,
  },
];
const changed = (before: Plan, part: Partial<TrialForm>, length: "mm" | "in" = "mm", lotFollowed = false) => {
  const began = formOfPlan(before, { seed: 99, length });
  return planOf({ ...began, ...part }, { before, began, lotFollowed }).plan;
};

describe("a plan put into the form and read again", () => {
  test.each<[string, Plan]>([
    ["as drawn", drawPlan(draft)],
    ["with every kind of question, two of one kind", drawPlan({ ...draft, questions })],
    [
      "with a size that a form shows rounded",
      drawPlan({ ...draft, edgeBandMm: 4.763, couponSize: { ...draft.couponSize, thicknessMm: 3.175 } }),
    ],
    [
      "spread and with coupons for a test",
      drawPlan({ ...draft, spread: "no treatment all on one edge", testCoupons: [{ test: "tape test", ofEach: 1 }] }),
    ],
    ["marked as invented", { ...drawPlan(draft), invented: true }],
  ])("%s is the same", (_, plan) => {
    expect(changed(plan, {})).toEqual(plan);
    expect(changed(plan, {}, "in"), "in inches").toEqual(plan);
  });

  test("one that a table brought keeps its lot", () => {
    const table: Plan = { ...smallPlan, allocation: { how: "assumed" } };
    const after = changed(table, { looks: "1, 2, 4, 8" }, "mm", true);
    expect(after).toEqual({ ...table, lookDays: [1, 2, 4, 8] });
  });
});

test("only what was typed changes; another number of coupons draws a new lot with the form's seed", () => {
  const plan = drawPlan({ ...draft, edgeBandMm: 4.763 });
  expect(changed(plan, { threshold: "0,03" }, "in")).toEqual({ ...plan, rustThresholdPercent: 0.03 });
  expect(changed(plan, { blocks: "1" })?.allocation).toEqual({ how: "drawn", seed: 99 });
});

test("a field that says no number is named, and gives no plan", () => {
  const before = drawPlan(draft);
  const began = formOfPlan(before, { seed: 99, length: "mm" });
  const read = planOf({ ...began, edgeBand: "a little" }, { before, began, lotFollowed: false });
  expect(read.problems.map((one) => one.pointer)).toEqual(["/draft/edgeBandMm"]);
});
