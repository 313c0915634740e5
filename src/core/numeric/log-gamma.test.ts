import { describe, expect, test } from "vitest";
import { logBeta, logFactorial, logGamma } from "./log-gamma.ts";

describe("logarithms of gamma and beta", () => {
  test.each([
    // x       ln Γ(x)                 by hand or 50-digit arithmetic
    [1, 0],
    [0.5, 0.5723649429247001], // ln √π
    [5, Math.log(24)],
    [1e-8, 18.420680738180209],
    [1e5, 1051287.7089736538],
  ])("ln Γ(%d) is %d", (x, value) => {
    expect(Math.abs(logGamma(x) - value)).toBeLessThanOrEqual(4e-15 * Math.max(1, Math.abs(value)));
  });

  test.each([0, 1, 2, 10, 20])("ln %d! is the logarithm of the product", (n) => {
    let product = 1;
    for (let factor = 2; factor <= n; factor++) product *= factor;
    expect(logFactorial(n)).toBeCloseTo(Math.log(product), 13);
  });

  test.each([
    [1, 1, 0],
    [2, 3, Math.log(1 / 12)],
    [0.5, 0.5, Math.log(Math.PI)],
    [1, 1e12, -Math.log(1e12)], // B(1, b) = 1/b: naive differences of ln Γ lose half the digits here
  ])("ln B(%d, %d) is %d", (a, b, value) => {
    expect(logBeta(a, b)).toBeCloseTo(value, 11);
    expect(logBeta(b, a)).toBe(logBeta(a, b));
  });
});
