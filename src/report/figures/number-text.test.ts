import { describe, expect, test } from "vitest";
import { effectText, percentText, pText, valueText } from "./number-text.ts";

describe("a rusted area as written", () => {
  test.each([
    [0, "0"],
    [0.0004, "< 0.001"],
    [0.014, "0.014"],
    [0.0996, "0.1"],
    [1.234, "1.2"],
    [12.34, "12"],
    [98.4, "98"],
    [99.72, "99.7"],
    [99.97, "> 99.9"],
    [100, "100"],
  ])("%d %% reads %s", (percent, text) => expect(percentText(percent)).toBe(text));
});

describe("effects, values and chances", () => {
  test.each([
    [3.217, "3.2"],
    [0.04567, "0.046"],
    [12.6, "13"],
    [-1.25, "−1.3"],
    [0, "0"],
  ])("an effect of %d reads %s", (value, text) => expect(effectText(value)).toBe(text));

  test.each([
    [42, "42"],
    [8.7654, "8.77"],
    [-3, "−3"],
  ])("a value of %d reads %s", (value, text) => expect(valueText(value)).toBe(text));

  test.each([
    [0.0123, "0.012"],
    [0.00001, "below 0.0001"],
    [1, "1"],
  ])("p = %d reads %s", (p, text) => expect(pText(p)).toBe(text));
});
