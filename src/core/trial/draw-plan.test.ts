import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { weighedCoupons } from "../../../tests/weighed-coupons.ts";
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

const step = (name: string, treated: "alone" | "together") => ({ name, treated });
/** Two baths, two oils: the bath is run for a whole batch, the oil is wiped on coupon by coupon. */
const twoBaths = (coupons: number): DrawablePlan["treatments"] =>
  [
    ["zinc, oil", "zinc phosphate", "oil"],
    ["zinc, wax", "zinc phosphate", "wax"],
    ["manganese, oil", "manganese phosphate", "oil"],
    ["manganese, wax", "manganese phosphate", "wax"],
  ].map(([name, bath, finish]) => ({
    name: name!,
    role: "finish",
    route: [step("alkaline cleaner", "together"), step(bath!, "together"), step(finish!, "alone")],
    coupons,
  }));

describe("batches", () => {
  test("each bath has its batches, each batch both oils, in random order of running", () => {
    const { places } = drawPlan(draft({}, { treatments: twoBaths(8), batchesOfEach: 4 }));
    const batches = [...new Set(places.map((one) => one.batch))].sort();
    expect(batches).toEqual(["1", "2", "3", "4", "5", "6", "7", "8"]);
    for (const batch of batches) {
      const inside = places.filter((one) => one.batch === batch).map((one) => one.treatment);
      expect(new Set(inside.map((name) => name.split(",")[0])).size).toBe(1);
      expect(inside.toSorted()).toEqual([inside.toSorted()[0], inside.toSorted()[0], ...inside.toSorted().slice(2)]);
      expect(new Set(inside).size).toBe(2);
      expect(inside).toHaveLength(4);
    }
    const firstBaths = Array.from({ length: 20 }, (_, seed) =>
      drawPlan(draft({}, { treatments: twoBaths(4), batchesOfEach: 4, seed }))
        .places.filter((one) => Number(one.batch) <= 4)
        .map((one) => one.treatment.split(",")[0]),
    );
    expect(new Set(firstBaths.map((names) => count(names, (one) => one === "zinc"))).size).toBeGreaterThan(2);
  });

  test("a batch lies within one block", () => {
    const { places } = drawPlan(draft({}, { treatments: twoBaths(6), batchesOfEach: 6, blocks: 3 }));
    for (const batch of new Set(places.map((one) => one.batch)))
      expect(new Set(places.filter((one) => one.batch === batch).map((one) => one.block)).size).toBe(1);
  });

  test("spares and coupons of a test ride along; who skips the bath has no batch", () => {
    const control: DrawablePlan["treatments"][number] = {
      name: "oil alone",
      role: "control",
      route: [step("alkaline cleaner", "together"), step("oil", "alone")],
      coupons: 4,
    };
    const { places } = drawPlan(
      draft(
        {},
        {
          treatments: [control, ...twoBaths(4)],
          batchesOfEach: 2,
          sparesOfEach: 1,
          testCoupons: [{ test: "tape test", ofEach: 1 }],
        },
      ),
    );
    expect(places.every((one) => (one.batch === undefined) === (one.treatment === "oil alone"))).toBe(true);
  });

  test.each<[Partial<DrawablePlan>, RegExp]>([
    [{ batchesOfEach: 5 }, /^batchesOfEach is 5; expected no more than the 4 coupons of "zinc, oil"/],
    [{ batchesOfEach: 3, blocks: 2 }, /^batchesOfEach is 3; expected as many in each of the 2 blocks/],
    [{ batchesOfEach: 2, treatments: draft({ oil: 2, wax: 2 }).treatments }, /^batchesOfEach is 2; expected a step/],
  ])("refuses %j", (more, message) =>
    expect(() => drawPlan(draft({}, { treatments: twoBaths(4), ...more }))).toThrow(message),
  );
});

describe("coupons of a destructive test", () => {
  test("numbered by lot among the others, on no rack; numbers still run along the rack", () => {
    const { places } = drawPlan(
      draft({ oil: 4, wax: 4 }, { testCoupons: [{ test: "tape test", ofEach: 2 }], rackColumns: 3 }),
    );
    expect(places.map((one) => one.coupon)).toEqual(Array.from({ length: 12 }, (_, at) => String(at + 1)));
    const kept = places.filter((one) => one.keptFor === "tape test");
    expect(kept.map((one) => one.treatment).sort()).toEqual(["oil", "oil", "wax", "wax"]);
    expect(kept.every((one) => one.rack === null && one.block === null)).toBe(true);
    const hung = places.filter((one) => one.rack !== null);
    expect(hung.map(({ rack }) => 3 * rack!.row + rack!.column)).toEqual([4, 5, 6, 7, 8, 9, 10, 11]);
    expect(kept.map((one) => one.coupon)).not.toEqual(["9", "10", "11", "12"]);
  });
});

describe("a draw repeated until it is spread", () => {
  test("no treatment hangs all on one edge, and every draw that is spread can come", () => {
    const lots = Array.from({ length: 300 }, (_, seed) =>
      drawPlan(draft({ a: 2, b: 2 }, { rackColumns: 2, spread: "no treatment all on one edge", seed }))
        .places.map((one) => one.treatment)
        .join(""),
    );
    // Six ways to hang two and two; two rows and two columns are refused.
    expect([...new Set(lots)].sort()).toEqual(["abba", "baab"]);
    expect(count(lots, (one) => one === "abba")).toBeGreaterThan(100);
  });
});

describe("incomplete blocks", () => {
  test("every two treatments meet in as many blocks, witnesses aside", () => {
    const treatments: DrawablePlan["treatments"] = [
      ...draft({ a: 3, b: 3, c: 3, d: 3 }).treatments,
      { name: "bare", role: "witness", route: [], coupons: 4 },
    ];
    const { places } = drawPlan(draft({}, { treatments, blocks: 4, blockSize: 3, questions: [weighedCoupons] }));
    const inside = ["1", "2", "3", "4"].map((block) => places.filter((one) => one.block === block));
    for (const own of inside) expect(own.map((one) => one.treatment)).toContain("bare");
    const meet = (x: string, y: string) =>
      count(inside, (own) => [x, y].every((name) => own.some((one) => one.treatment === name)));
    expect([meet("a", "b"), meet("a", "c"), meet("a", "d"), meet("b", "c"), meet("c", "d")]).toEqual([2, 2, 2, 2, 2]);
  });

  test.each<[Partial<DrawablePlan>, RegExp]>([
    [{ blocks: 5 }, /^blocks is 5; expected 4 blocks of 3, or a multiple/],
    [
      { blocks: 4, questions: draft({}).questions },
      /^blockSize is 3; expected blocks that hold every treatment: "time to first rust" is no measured value/,
    ],
    [{ blocks: 8 }, /^coupons is 3; expected 6 of each treatment in 8 such blocks/],
  ])("refuses %j", (more, message) =>
    expect(() =>
      drawPlan(draft({ a: 3, b: 3, c: 3, d: 3 }, { blockSize: 3, questions: [weighedCoupons], ...more })),
    ).toThrow(message),
  );
});
