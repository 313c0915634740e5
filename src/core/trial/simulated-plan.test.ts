import { describe, expect, test } from "vitest";
import type { DeclaredQuestion } from "./declared-question.ts";
import type { DrawablePlan } from "./draw-plan.ts";
import { planAssumptions } from "./plan-assumptions.ts";
import { withCoupons } from "./read-coupons.ts";
import { simulateInParts } from "./simulate-in-parts.ts";
import { simulatedPlan } from "./simulated-plan.ts";
import { drawnQuestion } from "./simulated-trial.ts";
import { addedTallies, emptyTally, simulatedChances, talliedTrials } from "./simulation-tally.ts";

const rust: DeclaredQuestion = { response: "time to first rust", family: "control", margin: 1.5, atDay: null };
const weekly = Array.from({ length: 12 }, (_, at) => 7 * (at + 1));

const draft = (n: number, more: Partial<DrawablePlan> = {}): DrawablePlan => ({
  question: "",
  questions: [rust],
  treatments: ["control", "wax", "oil"].map((name) => ({
    name,
    role: name === "control" ? "control" : "finish",
    coupons: n,
    route: [
      { name: "clean", treated: "together" },
      { name, treated: "alone" },
    ],
  })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: weekly,
  blocks: 1,
  rackColumns: 12,
  sparesOfEach: 0,
  seed: 1,
  ...more,
});
const assumed = planAssumptions(25);
const plan = (of: DrawablePlan, better: "one" | "all" = "all", size = 3, declared = rust) =>
  simulatedPlan(of, declared, { better, size, assumed });
const chances = (trial: ReturnType<typeof plan>, trials: number) =>
  simulatedChances(talliedTrials(trial, { from: 0, to: trials }));

describe("nothing is ever shown, however large the difference", () => {
  test.each([
    ["one coupon of each", draft(1)],
    ["three of each: even the clearest result comes once in ten", draft(3)],
    ["three blocks of one", draft(3, { blocks: 3 })],
    ["five blocks of one: once in sixteen", draft(5, { blocks: 5 })],
  ])("%s", (_, of) => expect(chances(plan(of, "all", 50), 40).each).toEqual({ share: 0, error: 0 }));

  test("every finish oiled in one dip is one unit", () => {
    const together = draft(8);
    for (const one of together.treatments) one.route = one.route!.map((step) => ({ ...step, treated: "together" }));
    expect(chances(plan(together, "all", 50), 20).each?.share).toBe(0);
  });
});

describe("what chance a plan has", () => {
  test("two treatments, six each, three times as long: 79 to 82 % by the plan's table", () => {
    const two = draft(6);
    two.treatments = two.treatments.slice(0, 2);
    const trial = { ...plan(two), lostShare: 0 };
    const { each, all } = chances(trial, 400);
    expect(Math.abs(each!.share - 0.8)).toBeLessThan(3 * each!.error + 0.02);
    // With one comparison, each is all.
    expect(all).toEqual(each);
  });

  test("more coupons, or a larger factor, show more", () => {
    const of = (n: number, size: number) => chances(plan(draft(n), "all", size), 120).each!.share;
    const [few, more, larger] = [of(5, 2), of(9, 2), of(9, 4)];
    expect(few).toBeLessThan(more);
    expect(more).toBeLessThan(larger);
  });

  test("without any difference hardly anything is shown, and nothing of it is called true", () => {
    const alike = { ...plan(draft(5)), centres: [{ control: 3, wax: 3, oil: 3 }] };
    const { each, falselyShown } = chances(alike, 200);
    expect(each).toBeNull();
    expect(falselyShown.share).toBeLessThan(0.05 + 3 * falselyShown.error);
  });

  test("one better: each finish has its turn", () => {
    const { pairs } = talliedTrials(plan(draft(5), "one"), { from: 0, to: 10 });
    expect(pairs.map((pair) => pair.differing)).toEqual([5, 5]);
  });

  test("all pairs: the one that differs, differs from both others", () => {
    const pairs = { ...rust, family: "pairs" } as const;
    const { pairs: counted } = talliedTrials(plan(draft(5), "all", 3, pairs), { from: 0, to: 4 });
    expect(counted.map(({ first, second, differing }) => [first, second, differing])).toEqual([
      ["control", "wax", 4],
      ["control", "oil", 4],
      ["wax", "oil", 0],
    ]);
  });
});

describe("drawn data", () => {
  test("half of the control rust by its median; the finish by three times that", () => {
    const trial = { ...plan(draft(8, { lookDays: [25, 75] })), lostShare: 0 };
    const coupons = Array.from({ length: 200 }, (_, at) => drawnQuestion(trial, at)).flatMap((one) => one.coupons);
    const rustedBy = (treatment: string, day: number) => {
      const own = coupons.filter((coupon) => coupon.treatment === treatment);
      return (
        own.filter(({ datum }) => "right" in datum && datum.right !== null && datum.right <= day).length / own.length
      );
    };
    expect(rustedBy("control", 25)).toBeCloseTo(0.5, 1);
    expect(rustedBy("wax", 75)).toBeCloseTo(0.5, 1);
  });

  test("more coupons keep the data of the first ones, so that curves do not cross by noise", () => {
    const dataOf = (n: number) =>
      drawnQuestion(plan(draft(n)), 4)
        .coupons.filter((coupon) => coupon.treatment === "wax")
        .map((coupon) => coupon.datum);
    expect(dataOf(7).slice(0, 5)).toEqual(dataOf(5));
  });

  test("areas at or below 100 %, classes on the scale, a better finish with less rust and a better class", () => {
    const meanOf = (declared: DeclaredQuestion, size: number, control: number) => {
      const trial = simulatedPlan(draft(9), declared, { better: "all", size, assumed: planAssumptions(control) });
      const coupons = Array.from({ length: 30 }, (_, at) => drawnQuestion(trial, at)).flatMap((one) => one.coupons);
      const values = (name: string) =>
        coupons.flatMap(({ treatment, datum }) => (treatment === name && "value" in datum ? [datum.value] : []));
      return ["control", "wax"].map((name) => {
        const own = values(name);
        expect(Math.max(...own)).toBeLessThanOrEqual(declared.response === "tape class" ? 5 : 100);
        return own.reduce((sum, value) => sum + value, 0) / own.length;
      });
    };
    const [bare, waxed] = meanOf({ ...rust, response: "rusted area", atDay: null }, 3, 10);
    expect(waxed!).toBeLessThan(bare! / 2);
    const [plain, better] = meanOf({ ...rust, response: "tape class", margin: 1, atDay: null }, 1, 2);
    expect(better! - plain!).toBeGreaterThan(0.7);
  });

  test("a lost coupon is censored at the last look it had, or left out", () => {
    const { coupons } = drawnQuestion({ ...plan(draft(20, { lookDays: [40, 80] })), lostShare: 0.9 }, 1);
    expect(coupons.length).toBeLessThan(60);
    expect(coupons.some(({ datum }) => "right" in datum && datum.right === null && datum.left === 40)).toBe(true);
  });
});

describe("seeds and parts", () => {
  const trial = plan(draft(5));
  test("the same seed, the same counts; parts add up to the whole", () => {
    const whole = talliedTrials(trial, { from: 0, to: 30 });
    expect(talliedTrials(trial, { from: 0, to: 30 })).toEqual(whole);
    const parts = addedTallies(talliedTrials(trial, { from: 0, to: 11 }), talliedTrials(trial, { from: 11, to: 30 }));
    expect({ ...parts, shareSum: 0, squaredShareSum: 0 }).toEqual({ ...whole, shareSum: 0, squaredShareSum: 0 });
    expect(parts.shareSum).toBeCloseTo(whole.shareSum, 12);
  });

  const tally = async (...part: Parameters<typeof talliedTrials>) => talliedTrials(...part);
  test("by two hands the same as by one, with progress to the end", async () => {
    const shares: number[] = [];
    const signal = new AbortController().signal;
    const two = await simulateInParts(
      trial,
      { trials: 60, hands: 2, tally },
      { signal, progress: (share) => shares.push(share) },
    );
    expect(two.allShown).toBe(talliedTrials(trial, { from: 0, to: 60 }).allShown);
    expect(shares.at(-1)).toBe(1);
  });

  test("cancelling stops before the next part", async () => {
    const stop = new AbortController();
    let parts = 0;
    const counted = async () => {
      parts++;
      stop.abort(new Error("enough"));
      return { ...emptyTally(trial), trials: 25 };
    };
    const work = simulateInParts(
      trial,
      { trials: 1000, hands: 1, tally: counted },
      { signal: stop.signal, progress: () => {} },
    );
    await expect(work).rejects.toThrow("enough");
    expect(parts).toBe(1);
  });
});

describe("refuses by name", () => {
  test.each([
    ["size", { size: 1, assumed }],
    ["control", { size: 2, assumed: planAssumptions(0) }],
    ["shape", { size: 2, assumed: { ...assumed, shape: -1 } }],
    ["lostShare", { size: 2, assumed: { ...assumed, lostShare: 1 } }],
  ])("%s", (argument, { size, assumed: wrong }) =>
    expect(() => simulatedPlan(draft(5), rust, { better: "one", size, assumed: wrong })).toThrow(
      new RegExp(`^${argument} is`),
    ),
  );
});

test("witnesses keep their number when all others get more coupons", () => {
  const [control, witness] = withCoupons(
    draft(4, { treatments: [draft(4).treatments[0]!, { name: "bare", role: "witness", coupons: 2, route: [] }] }),
    9,
    rust,
  ).treatments;
  expect([control?.coupons, witness?.coupons]).toEqual([9, 2]);
});
