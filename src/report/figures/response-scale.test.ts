import { describe, expect, test } from "vitest";
import type { CouponPoint } from "../../core/trial/finding.ts";
import { classScale, percentScale, responseScale, timeScale, valueScale } from "./response-scale.ts";

const point = (datum: CouponPoint["datum"]): CouponPoint => ({
  coupon: "7",
  treatment: "wax",
  block: null,
  datum,
  deviation: null,
});

describe("the percent axis", () => {
  test.each([
    // greatest, axis ends at
    [0, 1],
    [0.4, 1],
    [1, 1],
    [1.01, 10],
    [10, 10],
    [64, 100],
    [100, 100],
  ])("with rust up to %d %% it ends at %d %%", (greatest, end) => {
    const scale = percentScale(greatest);
    expect(scale.ticks.at(-1)?.at).toBe(end);
    expect(scale.place(end)).toBe(1);
  });

  test("zero has a place of its own, and each tenfold takes about the same room", () => {
    const { place } = percentScale(100);
    expect(place(0)).toBe(0);
    expect(place(10) - place(1)).toBeCloseTo(place(100) - place(10), 2);
    expect(place(0.01)).toBeGreaterThan(0.05);
  });
});

describe("the time axis", () => {
  test("runs from 0 to the last look", () => {
    expect(timeScale(84).place(84)).toBe(1);
    expect(timeScale(84).place(0)).toBe(0);
  });
  test("a trial without a look yet still has an axis", () => expect(timeScale(0).place(0)).toBe(0));
});

describe("classes", () => {
  test.each([
    ["5 is best (tape)", { best: 5, worst: 0 }, 5, 11 / 12],
    ["5 is best, the worst", { best: 5, worst: 0 }, 0, 1 / 12],
    ["0 is best (Ri): best still to the right", { best: 0, worst: 5 }, 0, 11 / 12],
    ["a single class", { best: 4, worst: 4 }, 4, 1 / 2],
  ])("%s", (_name, scale, value, place) => expect(classScale(scale).place(value)).toBeCloseTo(place, 12));
});

describe("measured values", () => {
  test("all alike: in the middle, not at an edge", () => expect(valueScale([3, 3]).place(3)).toBeCloseTo(0.5, 12));
  test("the extremes keep off the edges", () => {
    const { place } = valueScale([2, 9]);
    expect(place(2)).toBeGreaterThan(0.03);
    expect(place(9)).toBeLessThan(0.97);
  });
});

test("not yet rusty adds no end of its own: the axis ends at the last look seen", () => {
  const scale = responseScale("time", [point({ left: 14, right: 21 }), point({ left: 84, right: null })], null);
  expect(scale.place(84)).toBe(1);
});

test("without a point every kind still draws", () => {
  for (const kind of ["time", "area", "ordinal", "continuous", "binary"] as const)
    expect(responseScale(kind, [], null).place(0)).toBeGreaterThanOrEqual(0);
});
