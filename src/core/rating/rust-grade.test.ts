import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { d610Grade } from "./d610-grade.ts";
import { iso4628Degree } from "./iso4628-3-degree.ts";
import { areaPercentFromProtectionRating, protectionRating, protectionRatingContinuous } from "./iso10289-rating.ts";
import { rustGrade } from "./rust-grade.ts";

const area = fc.double({ min: 0, max: 100, noNaN: true });

describe("ISO 10289 protection rating", () => {
  test.each([
    // defects %  rating  source                                       status
    [0, 10, "Table 1, no defect", "published"],
    [1e-6, 9, "Table 1, any defect at all", "published"],
    [0.1, 9, "Table 1, upper limit included", "published"],
    [0.12, 8, "Table 1; the formula's 8.76 would round to 9", "published"],
    [1, 6, "Table 1", "published"],
    [1.2, 5, "Table 1; the formula would round to 6", "published"],
    [2.5, 5, "Table 1", "published"],
    [50, 1, "Table 1", "published"],
    [60, 0, "Table 1; the formula would round to 1", "published"],
    [100, 0, "Table 1", "memory"],
  ])("%d %% is rating %d (%s, %s)", (percent, rating) => {
    expect(protectionRating(percent)).toBe(rating);
  });

  test.each([
    [0.1, 9],
    [10, 3],
    [100, 0],
    [2.5, 4.806179974],
    [0.046, 10], // not above 10 where the formula is not used
    [0, 10],
  ])("the formula gives %d %% the value %d", (percent, rating) => {
    expect(protectionRatingContinuous(percent)).toBeCloseTo(rating, 8);
  });

  test("the formula and its inverse undo each other, and meet 10 without a step", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 10, noNaN: true }), (rating) => {
        expect(protectionRatingContinuous(areaPercentFromProtectionRating(rating))).toBeCloseTo(rating, 10);
      }),
    );
    expect(areaPercentFromProtectionRating(10)).toBeCloseTo(0.04641588834, 10);
  });

  test.each([-1, 101, Number.NaN])("refuses %d %% by name", (percent) => {
    expect(() => protectionRating(percent)).toThrow(/^areaPercent is/);
    expect(() => protectionRatingContinuous(percent)).toThrow(/^areaPercent is/);
  });

  test("refuses a rating of 10.5 by name", () => {
    expect(() => areaPercentFromProtectionRating(10.5)).toThrow(/^rating is 10.5; expected a rating from 0 to 10/);
  });
});

describe("ISO 4628-3 degree of rusting", () => {
  test.each([
    // rusted %  not better than  nearest picture  why
    [0, 0, 0, "no rust"],
    [0.001, 1, 1, "any rust at all is not degree 0"],
    [0.05, 1, 1, "the picture of Ri 1"],
    [0.06, 2, 1, "just past it"],
    [0.5, 2, 2, "the picture of Ri 2"],
    [0.71, 3, 3, "past √(0.5 x 1) = 0.707"],
    [2, 4, 3, "below √(1 x 8) = 2.83"],
    [8, 4, 4, "the picture of Ri 4"],
    [18.8, 5, 4, "below √(8 x 44.7) = 18.9"],
    [19, 5, 5, "past it"],
    [45, 5, 5, "the picture of Ri 5, 40 to 50 %"],
    [100, 5, 5, "all rusted"],
  ])("%d %% is Ri %d, by the nearest picture Ri %d (%s)", (percent, upper, nearest) => {
    expect(iso4628Degree(percent)).toBe(upper);
    expect(iso4628Degree(percent, "nearestPicture")).toBe(nearest);
  });
});

describe("one area on three scales", () => {
  test("each standard answers with its own", () => {
    expect(rustGrade({ areaPercent: 1.2, standard: "ASTM D610" })).toBe(5);
    expect(rustGrade({ areaPercent: 1.2, standard: "ISO 10289" })).toBe(5);
    expect(rustGrade({ areaPercent: 1.2, standard: "ISO 4628-3" })).toBe(4);
    expect(rustGrade({ areaPercent: 1.2, standard: "ISO 4628-3", mapping: "nearestPicture" })).toBe(3);
  });

  test("more rust never rates better on any of them", () => {
    fc.assert(
      fc.property(area, area, (a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        expect(d610Grade(more)).toBeLessThanOrEqual(d610Grade(less));
        expect(protectionRating(more)).toBeLessThanOrEqual(protectionRating(less));
        expect(iso4628Degree(more)).toBeGreaterThanOrEqual(iso4628Degree(less));
        expect(iso4628Degree(more, "nearestPicture")).toBeGreaterThanOrEqual(iso4628Degree(less, "nearestPicture"));
      }),
    );
  });

  test.each([
    [{ areaPercent: 1, standard: "ASTM D9999" as "ASTM D610" }, "standard"],
    [{ areaPercent: Number.POSITIVE_INFINITY, standard: "ISO 4628-3" as const }, "areaPercent"],
    [{ areaPercent: 1, standard: "ISO 4628-3" as const, mapping: "best" as "upperLimit" }, "mapping"],
  ])("%j is refused by %s", (face, argument) => {
    expect(() => rustGrade(face)).toThrow(new RegExp(`^${argument} is`));
  });
});
