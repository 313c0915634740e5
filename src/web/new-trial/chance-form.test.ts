import { describe, expect, test } from "vitest";
import { chanceWish, couponsTyped, withEach } from "./chance-form.ts";
import { startForm, type TrialForm } from "./trial-form.ts";

const start = startForm({ id: "6b0c1f5e-6d3e-4a52-9a3b-0d5a0f6f7c11", seed: 7, length: "mm" });
const rust = (part: Partial<TrialForm> = {}): TrialForm => ({ ...start, ...part });

describe("what the curve still has to be told", () => {
  test("not the names, and not the question", () =>
    expect(chanceWish(rust({ controlMedian: "25" })).missing).toBeNull());
  test("when half of the control has rusted: nobody else can know", () =>
    expect(chanceWish(rust())).toMatchObject({ missing: "control", declared: { response: "time to first rust" } }));
  test("a number that is no number", () =>
    expect(chanceWish(rust({ blocks: "x", controlMedian: "25" })).missing).toBe("draft"));
});

describe("the difference to find", () => {
  const asking = (margin: string, chanceSize = "") =>
    chanceWish(rust({ controlMedian: "25", chanceSize, asked: start.asked.map((one) => ({ ...one, margin })) })).plan
      ?.size;
  test.each([
    ["the margin, when one is declared", "1.5", "", 1.5],
    ["twice as long without one", "", "", 2],
    ["or what was typed", "1.5", "3", 3],
  ])("%s", (_, margin, typed, size) => expect(asking(margin, typed)).toBe(size));
});

test("a shape of one's own stands in place of the usual 2", () => {
  expect(chanceWish(rust({ controlMedian: "25" })).plan?.assumed.shape).toBe(2);
  expect(chanceWish(rust({ controlMedian: "25", chanceShape: "1.3" })).plan?.assumed.shape).toBe(1.3);
});

describe("coupons of each", () => {
  const coupons = (...typed: string[]) => start.treatments.map((one, at) => ({ ...one, coupons: typed[at]! }));
  test("the fewest of those compared; the bare witness does not count", () => {
    expect(couponsTyped(coupons("8", "8", "2"))).toEqual({ each: 8, unequal: false });
    expect(couponsTyped(coupons("8", "6", "2"))).toEqual({ each: 6, unequal: true });
    expect(couponsTyped(coupons("8", "", "2"))).toBeNull();
  });
  test("the handle sets all but the witnesses", () =>
    expect(withEach(coupons("8", "6", "2"), 10).map((one) => one.coupons)).toEqual(["10", "10", "2"]));
});
