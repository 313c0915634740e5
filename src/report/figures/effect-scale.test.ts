import { describe, expect, test } from "vitest";
import type { Effect, Finding } from "../../core/trial/finding.ts";
import { drawnInterval, effectScale, largerIsBetter, marginSpan } from "./effect-scale.ts";

const finding = (effect: Effect | null, margin: number | null): Finding => ({
  first: "wax",
  second: "oil",
  n: [6, 6],
  effect,
  p: 0.01,
  pAdjusted: 0.03,
  pAdjustedIsLowerBound: false,
  pMin: 0.009,
  method: "",
  margin,
  equivalence: null,
  verdict: "shown",
  sentence: "",
  because: [],
  wouldTell: null,
});
const effect = (name: Effect["name"], value: number | null, lower: number | null, upper: number | null): Effect => ({
  name,
  value,
  lower,
  upper,
  confidence: 0.95,
});

describe("the margin on the effect's own axis", () => {
  test.each([
    ["time: a factor, both ways", effect("time ratio", 3, 2, 5), "time", 2, { from: 0.5, to: 2 }],
    ["area by ratio", effect("area ratio", 3, 2, 5), "area", 2, { from: 0.5, to: 2 }],
    ["area by Cliff's delta: the factor has no place there", effect("Cliff's delta", 0.5, 0, 1), "area", 2, null],
    ["classes", effect("class shift", 1, 0, 2), "ordinal", 1, { from: -1, to: 1 }],
    ["a difference", effect("difference", 1, 0, 2), "continuous", 0.5, { from: -0.5, to: 0.5 }],
    ["none stated", effect("time ratio", 3, 2, 5), "time", null, null],
    ["no effect", null, "time", 2, null],
  ] as const)("%s", (_name, one, kind, margin, span) => expect(marginSpan(finding(one, margin), kind)).toEqual(span));
});

describe("the better side is to the right", () => {
  test.each([
    ["time ratio", "higher", true],
    ["area ratio", "lower", false],
    ["Cliff's delta", "lower", true],
    ["class shift", "higher", true],
    ["class shift", "lower", false],
    ["difference", "lower", false],
  ] as const)("%s, %s is better: larger to the right %s", (name, better, answer) =>
    expect(largerIsBetter(name, better)).toBe(answer),
  );

  test("half the rust lies as far right as twice the rust lies left", () => {
    const scale = effectScale("area ratio", [], { kind: "area", better: "lower" });
    expect(scale.place(0.5)).toBeGreaterThan(0.5);
    expect(scale.place(0.5) + scale.place(2)).toBeCloseTo(1, 12);
  });
});

describe("intervals on the axis", () => {
  const time = { kind: "time", better: "higher" } as const;
  test.each([
    ["both limits", 1.5, 4, false, false],
    ["no upper limit", 1.5, null, false, true],
    ["no lower limit", null, 4, true, false],
    ["neither", null, null, true, true],
    ["far off the axis both ways", 0.001, 5000, true, true],
    ["wholly off the axis: an arrow at its end", 4000, 5000, true, true],
  ])("%s", (_name, lower, upper, leftOpen, rightOpen) => {
    const one = finding(effect("time ratio", 2, lower, upper), null);
    const drawn = drawnInterval(one.effect!, effectScale("time ratio", [one], time));
    expect([drawn.left.open, drawn.right.open]).toEqual([leftOpen, rightOpen]);
    expect(drawn.left.place).toBeGreaterThanOrEqual(0);
    expect(drawn.right.place).toBeLessThanOrEqual(1);
  });

  test("on a turned axis the missing upper limit leaves on the left", () => {
    const one = finding(effect("area ratio", 2, 1.2, null), 2);
    const drawn = drawnInterval(one.effect!, effectScale("area ratio", [one], { kind: "area", better: "lower" }));
    expect([drawn.left.open, drawn.right.open]).toEqual([true, false]);
  });

  test("no difference is always in sight", () => {
    const one = finding(effect("difference", 40, 39, 41), null);
    const scale = effectScale("difference", [one], { kind: "continuous", better: "higher" });
    expect(scale.place(0)).toBe(0.5);
  });
});
