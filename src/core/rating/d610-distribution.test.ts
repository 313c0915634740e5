import { describe, expect, test } from "vitest";
import { d610Letter } from "./d610-distribution.ts";

const spots = (count: number, diameterMm: number, fromMm = 0, toMm = 100) =>
  Array.from({ length: count }, (_, at) => ({
    xMm: fromMm + ((at + 0.5) * (toMm - fromMm)) / count,
    areaMm2: (Math.PI * diameterMm ** 2) / 4,
  }));

describe("the letter beside a D610 grade", () => {
  test.each([
    // rust                                                         area %  letter
    ["forty specks of 0.4 mm", spots(40, 0.4), 0.1, "P"],
    ["twenty specks are too few to be pinpoint", spots(20, 0.4), 0.1, "G"],
    ["two large spots", spots(2, 8), 2, "S"],
    ["thirty of 3 mm, spread", spots(30, 3), 5, "G"],
    ["specks on the left, one large spot on the right", [...spots(40, 0.5, 0, 50), ...spots(1, 9, 50)], 1.5, "H"],
    ["a trace that grades 10 takes no letter", spots(1, 0.5), 0.009, null],
    ["more than half rusted takes no letter", spots(1, 60), 51, null],
  ])("%s", (_, rust, areaPercent, letter) => expect(d610Letter(areaPercent, rust, 100)).toBe(letter));

  test("turning the coupon round changes nothing", () => {
    const rust = [...spots(40, 0.5, 0, 45), ...spots(1, 9, 60)];
    const turned = rust.map((spot) => ({ ...spot, xMm: 100 - spot.xMm }));
    expect(d610Letter(1.5, turned, 100)).toBe(d610Letter(1.5, rust, 100));
  });

  test("refuses a percentage that is none", () =>
    expect(() => d610Letter(101, [], 100)).toThrow(/^areaPercent is 101/));
});
