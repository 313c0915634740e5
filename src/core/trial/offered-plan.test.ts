import { describe, expect, test } from "vitest";
import { offeredLookDays } from "./offered-plan.ts";

describe("looks that are offered", () => {
  test("dense at first, then weekly, from week 12 every second week", () =>
    expect(offeredLookDays(126)).toEqual([1, 2, 4, 7, 10, 14, 21, 28, 35, 42, 49, 56, 63, 70, 77, 84, 98, 112, 126]));
  test.each([
    [1, [1]],
    [5, [1, 2, 4]],
    [14, [1, 2, 4, 7, 10, 14]],
  ])("none after day %d", (last, days) => expect(offeredLookDays(last)).toEqual(days));
  test.each([0, Number.NaN, 1e6])("refuses %d days by name", (last) =>
    expect(() => offeredLookDays(last)).toThrow(/^lastDay is .* expected a number of days/));
});
