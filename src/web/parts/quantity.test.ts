import { describe, expect, test } from "vitest";
import { siPreferences } from "../../core/units.ts";
import { quantityText, siFromTyped, sizeText, typedNumber } from "./quantity.ts";

const imperial = { temp: "°F", length: "in", mass: "oz" } as const;

describe("what was typed", () => {
  test.each([
    ["95", 95],
    [" 1.5 ", 1.5],
    ["1,5", 1.5],
    [".5", 0.5],
    ["5.", 5],
    ["-3", -3],
    ["−3", -3],
    ["0,125", 0.125],
    ["1,500", null], // one and a half, or fifteen hundred?
    ["1.2.3", null],
    ["ten", null],
    ["", null],
    ["1e3", null],
  ])("%j is %j", (typed, value) => expect(typedNumber(typed)).toBe(value));

  test.each([
    ["temp", "203", 95],
    ["temp", "32", 0],
    ["length", "4", 101.6],
  ] as const)("%s %s in the user's unit is %f inside", (kind, typed, si) =>
    expect(siFromTyped(kind, typed, imperial)).toBeCloseTo(si, 9),
  );
});

describe("what is shown", () => {
  test("in the unit preferred", () => {
    expect(quantityText("temp", 95, siPreferences)).toBe("95 °C");
    expect(quantityText("temp", 95, imperial)).toBe("203 °F");
    expect(sizeText([101.6, 76.2], imperial)).toBe("4 × 3 in");
    expect(sizeText([100, 75.5], siPreferences)).toBe("100 × 75.5 mm");
  });
  test.each(["-40", "68", "203"])("%s °F comes back as it was typed", (typed) =>
    expect(quantityText("temp", siFromTyped("temp", typed, imperial)!, imperial)).toBe(`${typed} °F`),
  );
});
