import { describe, expect, test } from "vitest";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { stepOrders } from "./step-orders.ts";

const step = (name: string, treated: "alone" | "together") => ({ name, treated });
const draft = (more: Partial<DrawablePlan> = {}): DrawablePlan => ({
  question: "Which bath, and does wax help?",
  questions: [{ response: "time to first rust", family: "pairs", margin: null, atDay: null }],
  treatments: [
    ["zinc, oil", "zinc phosphate", "oil"],
    ["zinc, wax", "zinc phosphate", "wax"],
    ["manganese, oil", "manganese phosphate", "oil"],
  ].map(([name, bath, finish]) => ({
    name: name!,
    role: "finish",
    route: [step("alkaline cleaner", "together"), step(bath!, "together"), step(finish!, "alone")],
    coupons: 4,
  })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 7],
  blocks: 1,
  rackColumns: 6,
  sparesOfEach: 0,
  seed: 7,
  ...more,
});
const orderOf = (plan: ReturnType<typeof drawPlan>, name: string) => stepOrders(plan).find((one) => one.step === name)!;

describe("the order of single goes", () => {
  test("each step has exactly the coupons whose route has it, each once", () => {
    const plan = drawPlan(draft({ sparesOfEach: 1 }));
    expect(stepOrders(plan).map((one) => one.step)).toEqual([
      "alkaline cleaner",
      "zinc phosphate",
      "oil",
      "wax",
      "manganese phosphate",
    ]);
    const oiled = plan.places.filter((one) => one.treatment.endsWith("oil")).map((one) => one.coupon);
    const goes = orderOf(plan, "oil").goes;
    expect(goes.every((go) => go.coupons.length === 1)).toBe(true);
    expect(goes.flatMap((go) => go.coupons).sort()).toEqual(oiled.sort());
  });

  test("a step that all have together is one go; a bath in batches has one go for each of its batches, in order", () => {
    const plan = drawPlan(draft({ batchesOfEach: 2 }));
    expect(orderOf(plan, "alkaline cleaner").goes).toHaveLength(1);
    const zinc = orderOf(plan, "zinc phosphate").goes;
    expect(zinc).toHaveLength(2);
    for (const { batch, coupons } of zinc)
      expect(coupons.map((coupon) => plan.places.find((one) => one.coupon === coupon)!.batch)).toEqual(
        Array(coupons.length).fill(batch),
      );
    expect(zinc.map((go) => Number(go.batch))).toEqual(zinc.map((go) => Number(go.batch)).sort((a, b) => a - b));
  });

  test("block after block", () => {
    const plan = drawPlan(draft({ blocks: 2 }));
    const blocks = orderOf(plan, "oil").goes.map(
      (go) => plan.places.find((one) => one.coupon === go.coupons[0])!.block,
    );
    expect(blocks).toEqual([...blocks].sort());
  });

  test("the same plan gives the same order, which is not that of the rack", () => {
    const plan = drawPlan(draft());
    expect(stepOrders(plan)).toEqual(stepOrders(plan));
    const ordered = Array.from({ length: 10 }, (_, seed) =>
      orderOf(drawPlan(draft({ seed })), "oil").goes.map((go) => Number(go.coupons[0])),
    ).filter((numbers) => numbers.every((one, at) => at === 0 || one > numbers[at - 1]!));
    expect(ordered).toEqual([]);
  });

  test("no lot, no order", () =>
    expect(stepOrders({ ...drawPlan(draft()), allocation: { how: "assumed" } })).toEqual([]));
});
