import { describe, expect, test } from "vitest";
import { assessedArea } from "./assessed-area.ts";

const coupon = { lengthMm: 100, widthMm: 50, edgeBandMm: 5, holes: [] };

describe("assessed area", () => {
  test("100 x 50 mm less a band of 5 mm is 90 x 40", () => {
    expect(assessedArea(coupon)).toBe(3600);
  });

  test("a 5 mm hole with a ring of 5 mm takes a circle of 15 mm: 176.715 mm²", () => {
    expect(assessedArea({ ...coupon, holes: [{ diameterMm: 5, bandMm: 5 }] })).toBeCloseTo(3600 - 176.7146, 4);
  });

  test("without a band all of the face counts", () => {
    expect(assessedArea({ ...coupon, edgeBandMm: 0 })).toBe(5000);
  });

  test.each([
    ["edgeBandMm", { ...coupon, edgeBandMm: 25 }],
    ["edgeBandMm", { ...coupon, edgeBandMm: -1 }],
    ["holes[0].bandMm", { ...coupon, holes: [{ diameterMm: 20, bandMm: 11 }] }],
    ["holes[0].diameterMm", { ...coupon, holes: [{ diameterMm: 0, bandMm: 1 }] }],
    ["holes", { ...coupon, lengthMm: 50, holes: Array.from({ length: 2 }, () => ({ diameterMm: 36, bandMm: 0 })) }],
    ["lengthMm", { ...coupon, lengthMm: 0 }],
  ])("%s is refused by name", (argument, face) => {
    expect(() => assessedArea(face)).toThrow(`${argument} is`);
  });
});
