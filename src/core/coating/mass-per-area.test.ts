import { describe, expect, test } from "vitest";
import { coatingMassPerArea } from "./mass-per-area.ts";

describe("coating mass per area", () => {
  test("58.5 mg from 104.3429 cm² are 5.6065 g/m² (10 x mg / cm²)", () => {
    expect(coatingMassPerArea({ massBeforeG: 52.3461, massAfterG: 52.2876, areaCm2: 104.3429 })).toBeCloseTo(
      5.60651,
      4,
    );
  });

  test("nothing stripped is 0", () => {
    expect(coatingMassPerArea({ massBeforeG: 50, massAfterG: 50, areaCm2: 100 })).toBe(0);
  });

  test.each([
    ["massAfterG", { massBeforeG: 52.2, massAfterG: 52.3, areaCm2: 104 }],
    ["areaCm2", { massBeforeG: 52.3, massAfterG: 52.2, areaCm2: 0 }],
    ["massBeforeG", { massBeforeG: Number.NaN, massAfterG: 52.2, areaCm2: 104 }],
  ])("%s is refused by name", (argument, coupon) => {
    expect(() => coatingMassPerArea(coupon)).toThrow(new RegExp(`^${argument} is`));
  });
});
