import { expect, test } from "vitest";
import { type DrawablePlan, drawPlan } from "../../core/trial/draw-plan.ts";
import { smallPlan } from "../trial/trial-cases.ts";
import { draftOfPlan } from "./draft-of-plan.ts";

const { places: _places, allocation: _allocation, invented: _invented, ...said } = smallPlan;
const draft: DrawablePlan = {
  ...said,
  treatments: smallPlan.treatments.map((one) => ({ ...one, coupons: 6 })),
  blocks: 3,
  rackColumns: 6,
  sparesOfEach: 0,
  seed: 7,
};

test("a drawn plan gives its draft back, and the draft the same plan", () => {
  expect(draftOfPlan(drawPlan(draft))).toEqual(draft);
  expect(drawPlan(draftOfPlan(drawPlan(draft))!)).toEqual(drawPlan(draft));
});
test("a plan from a table was not drawn", () =>
  expect(draftOfPlan({ ...smallPlan, allocation: { how: "assumed" } })).toBeNull());
