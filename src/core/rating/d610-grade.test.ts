import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { d610Grade } from "./d610-grade.ts";

describe("D610 grade", () => {
  test.each([
    // rusted %  grade  source                          status
    [0, 10, "Table 1", "published"],
    [0.01, 10, "Table 1, upper limit included", "published"],
    [0.010001, 9, "Table 1, not rounded first", "published"],
    [1.2, 5, "Table 1", "published"],
    [50, 1, "Table 1", "published"],
    [50.1, 0, "Table 1", "published"],
  ])("%d %% is grade %d (%s, %s)", (percent, grade) => {
    expect(d610Grade(percent)).toBe(grade);
  });

  test.each([-0.1, 100.1, Number.NaN])("refuses %d by name", (percent) => {
    expect(() => d610Grade(percent)).toThrow(/^areaPercent is .* expected a percentage/);
  });

  test("more rust never grades better", () => {
    const area = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(fc.property(area, area, (a, b) => d610Grade(Math.max(a, b)) <= d610Grade(Math.min(a, b))));
  });
});
