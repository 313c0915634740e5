import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { requirePlan } from "./plan-rules.ts";

const draft = (coupons: Record<string, number>, more: Partial<DrawablePlan> = {}): DrawablePlan => ({
  question: "Does wax keep longer?",
  questions: [{ response: "time to first rust", family: "pairs", margin: 1.5, atDay: null }],
  treatments: Object.entries(coupons).map(([name, number]) => ({ name, role: "finish", route: [], coupons: number })),
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
const count = <T>(all: readonly T[], is: (one: T) => boolean) => all.filter(is).length;

describe("drawing lots", () => {
  test("the same draft and seed give the same places on every machine", () => {
    const places = drawPlan(draft({ oil: 4, wax: 4 }, { blocks: 2 }))
      .places.map((one) => one.treatment.charAt(0))
      .join("");
    expect(places).toBe("owwoowow");
  });

  test("another seed, another lot", () => {
    const places = (seed: number) => JSON.stringify(drawPlan(draft({ oil: 8, wax: 8 }, { seed })).places);
    expect(places(1)).not.toBe(places(2));
  });

  test("spares are numbered last, have no place on the rack, and their order does not tell their treatment", () => {
    const spares = (seed: number) =>
      drawPlan(draft({ oil: 4, wax: 4 }, { sparesOfEach: 3, seed })).places.filter((one) => one.spare);
    expect(spares(7).map(({ coupon, block, rack }) => [coupon, block, rack])).toEqual(
      ["9", "10", "11", "12", "13", "14"].map((coupon) => [coupon, null, null]),
    );
    expect(count(spares(7), (one) => one.treatment === "wax")).toBe(3);
    const orders = new Set(
      Array.from({ length: 20 }, (_, seed) =>
        spares(seed)
          .map((one) => one.treatment)
          .join(),
      ),
    );
    expect(orders.size).toBeGreaterThan(5);
  });

  test("coupons are numbered along the rack, each block in rows of its own", () => {
    const { places } = drawPlan(draft({ oil: 4, wax: 4 }, { blocks: 2, rackColumns: 3 }));
    expect(places.map((one) => one.coupon)).toEqual(["1", "2", "3", "4", "5", "6", "7", "8"]);
    expect(places.map((one) => [one.rack?.row, one.rack?.column])).toEqual([
      [1, 1],
      [1, 2],
      [1, 3],
      [2, 1],
      [3, 1],
      [3, 2],
      [3, 3],
      [4, 1],
    ]);
    expect(places.map((one) => one.block)).toEqual(["1", "1", "1", "1", "2", "2", "2", "2"]);
    expect(places.every((one) => !one.spare)).toBe(true);
  });

  test("one block is no block", () => {
    expect(drawPlan(draft({ oil: 2, wax: 2 })).places.map((one) => one.block)).toEqual([null, null, null, null]);
  });

  test.each([
    [{ blocks: 9 }, /^blocks is 9; expected no more blocks than the 8 coupons/],
    [{ blocks: 0 }, /^blocks /],
    [{ rackColumns: 0 }, /^rackColumns /],
    [{ seed: -1 }, /^seed /],
  ])("%o is refused", (more, message) => {
    expect(() => drawPlan(draft({ oil: 4, wax: 4 }, more))).toThrow(message);
  });

  test("every coupon once, every treatment as often as asked and as even over the blocks as can be", () => {
    const coupons = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(coupons, fc.integer({ min: 1, max: 5 }), fc.nat(), (numbers, blocks, seed) => {
        fc.pre(blocks <= numbers.reduce((sum, one) => sum + one, 0));
        const plan = drawPlan(draft(Object.fromEntries(numbers.map((one, at) => [`t${at}`, one])), { blocks, seed }));
        requirePlan(plan);
        const names = [...new Set(plan.places.map((one) => one.block))];
        const sizes = names.map((block) => count(plan.places, (one) => one.block === block));
        expect(names).toHaveLength(blocks);
        expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
        for (const [at, number] of numbers.entries()) {
          const own = names.map((block) =>
            count(plan.places, (one) => one.block === block && one.treatment === `t${at}`),
          );
          expect(own.reduce((sum, one) => sum + one, 0)).toBe(number);
          expect(Math.max(...own) - Math.min(...own)).toBeLessThanOrEqual(1);
        }
      }),
    );
  });

  test("over many lots every treatment comes to every place", () => {
    const first = Array.from(
      { length: 200 },
      (_, seed) => drawPlan(draft({ oil: 3, wax: 3 }, { seed })).places[0]!.treatment,
    );
    const oil = count(first, (one) => one === "oil");
    // 100 expected, standard deviation 7.
    expect(oil).toBeGreaterThan(72);
    expect(oil).toBeLessThan(128);
  });
});
