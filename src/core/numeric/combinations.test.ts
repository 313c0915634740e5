import { describe, expect, test } from "vitest";
import { allocations, combinations } from "./combinations.ts";

describe("counting ways", () => {
  test.each([
    [6, 3, 20n],
    [5, 0, 1n],
    [0, 0, 1n],
    [52, 5, 2598960n],
    [60, 30, 118264581564861424n], // beyond the whole numbers a double holds
  ])("%d over %d is %d", (n, k, ways) => {
    expect(combinations(n, k)).toBe(ways);
  });

  test.each([
    [[3, 3], 20n],
    [[2, 2, 2], 90n], // 6! / 2!³
    [[4], 1n],
    [[], 1n],
  ])("groups of %j can be dealt in %d ways", (sizes, ways) => {
    expect(allocations(sizes)).toBe(ways);
  });

  test("refuses to choose more than there are", () => {
    expect(() => combinations(3, 4)).toThrow(/^k is 4; expected at most 3/);
  });
});
