import { expect, test } from "vitest";
import { smallPlan } from "../../../tests/small-trial.ts";
import { draftOfPlan } from "./draft-of-plan.ts";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";

const { places: _places, allocation: _allocation, invented: _invented, ...said } = smallPlan;
const draft: DrawablePlan = {
  ...said,
  treatments: smallPlan.treatments.map((one) => ({ ...one, coupons: 6 })),
  blocks: 3,
  rackColumns: 6,
  sparesOfEach: 0,
  seed: 7,
};

const phosphated = [{ name: "manganese phosphate", treated: "together" as const }];
test.each<[string, Partial<DrawablePlan>]>([
  ["in blocks", {}],
  ["with spares and coupons for the tape test", { sparesOfEach: 1, testCoupons: [{ test: "tape test", ofEach: 2 }] }],
  ["spread over the rack", { spread: "no treatment all on one edge" }],
  [
    "in batches",
    {
      batchesOfEach: 3,
      treatments: draft.treatments.map((one, at) => (at === 0 ? { ...one, route: phosphated } : one)),
    },
  ],
  [
    "in incomplete blocks",
    {
      blocks: 3,
      blockSize: 2,
      questions: [
        {
          response: "value",
          name: "coating mass",
          kind: "continuous",
          better: "higher",
          unit: "g/m²",
          ratio: false,
          scale: null,
          family: "pairs",
          margin: null,
          atDay: null,
        },
      ],
      rackColumns: 2,
      treatments: ["a", "b", "c"].map((name) => ({ name, role: "finish", route: [], coupons: 2 })),
    },
  ],
])("a plan drawn %s gives its draft back, and the draft the same plan", (_, more) => {
  const own = { ...draft, ...more };
  expect(draftOfPlan(drawPlan(own))).toEqual(own);
  expect(drawPlan(draftOfPlan(drawPlan(own))!)).toEqual(drawPlan(own));
});

test("a plan from a table was not drawn", () =>
  expect(draftOfPlan({ ...smallPlan, allocation: { how: "assumed" } })).toBeNull());
