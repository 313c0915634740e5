import { describe, expect, test } from "vitest";
import { d610Grade } from "./d610-grade.ts";
import {
  plateGrounds,
  platePercent,
  platePx,
  plateSeries,
  platesOfTest,
  practicePlate,
  rustPlate,
} from "./rust-plate.ts";

const pixels = platePx.widthPx * platePx.heightPx;

describe("a plate of known rust", () => {
  test.each([
    // rusted pixels   what
    [0, "clean"],
    [1, "one pixel"],
    [9, "the least of grade 9"],
    [864, "1 %"],
    [51_840, "60 %, spots over spots"],
  ])("has exactly %d rusted pixels (%s)", (rustedPixels) => {
    for (const ground of plateGrounds) {
      const { rust } = rustPlate({ seed: 4, rustedPixels, ground });
      expect(rust.reduce((sum, one) => sum + one, 0)).toBe(rustedPixels);
    }
  });

  test("what is counted as rust is what looks like rust: redder than blue by 30, the ground grey within 20", () => {
    const { rgb, rust } = rustPlate({ seed: 9, rustedPixels: 8640, ground: "steel" });
    const wrong = rust.filter((one, at) => {
      const redder = rgb[at * 3]! - rgb[at * 3 + 2]!;
      return one === 1 ? redder <= 30 : Math.abs(redder) >= 20;
    });
    expect(wrong).toHaveLength(0);
  });

  test("the same recipe gives the same plate, another seed another", () => {
    const recipe = { seed: 5, rustedPixels: 500, ground: "phosphate" } as const;
    expect(rustPlate(recipe)).toEqual(rustPlate(recipe));
    expect(rustPlate(recipe).rust).not.toEqual(rustPlate({ ...recipe, seed: 6 }).rust);
  });

  test("refuses more rust than there is plate", () => {
    expect(() => rustPlate({ seed: 1, rustedPixels: pixels + 1, ground: "steel" })).toThrow(/^rustedPixels is 86401/);
  });
});

describe("the plates of a test", () => {
  test.each([1, 2, 77])("seed %d: two of each grade from 9 to 0, never beyond 60 %%, in no order", (seed) => {
    const series = plateSeries(seed);
    expect(series).toHaveLength(platesOfTest);
    const grades = series.map((one) => d610Grade(platePercent(one)));
    expect([...grades].sort((a, b) => a - b)).toEqual([0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9]);
    expect(grades).not.toEqual([...grades].sort((a, b) => b - a));
    expect(Math.max(...series.map(platePercent))).toBeLessThanOrEqual(60);
  });

  test("practice meets every grade with rust (seeds 0 to 199)", () => {
    const grades = Array.from({ length: 200 }, (_, seed) => d610Grade(platePercent(practicePlate(seed))));
    expect(new Set(grades)).toEqual(new Set([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]));
  });
});
