import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  binomialCdf,
  binomialDistribution,
  binomialPmf,
  binomialQuantile,
  binomialSf,
} from "./binomial-distribution.ts";
import {
  hypergeometricCdf,
  hypergeometricDistribution,
  hypergeometricLogPmf,
  hypergeometricQuantile,
  hypergeometricRange,
  hypergeometricSf,
} from "./hypergeometric-distribution.ts";

describe("binomial counts", () => {
  test.each([
    // successes  n  prob  P(X <= successes)  why
    [0, 5, 0.3, 0.16807, "0.7^5"],
    [2, 8, 0.5, 0.14453125, "(1 + 8 + 28) / 256"],
    [5, 5, 0.3, 1, "all of them"],
    [-1, 5, 0.3, 0, "fewer than none"],
    [0, 4, 0, 1, "cannot happen"],
    [3, 4, 1, 0, "always happens"],
    [0, 0, 0.5, 1, "no trials"],
  ])("at most %d of %d at %d: %d (%s)", (successes, n, prob, expected) => {
    expect(binomialCdf(successes, { n, prob })).toBeCloseTo(expected, 14);
    expect(binomialSf(successes, { n, prob })).toBeCloseTo(1 - expected, 14);
  });

  test("single chances add up to the cdf, and keep their digits for large n", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.double({ min: 0.001, max: 0.999, noNaN: true }), (n, prob) => {
        let sum = 0;
        for (let count = 0; count <= n; count++) {
          sum += binomialPmf(count, { n, prob });
          expect(Math.abs(sum - binomialCdf(count, { n, prob }))).toBeLessThan(1e-12);
        }
      }),
      { numRuns: 30 },
    );
    // C(2000, 1000) / 2^2000, 50-digit arithmetic
    expect(binomialPmf(1000, { n: 2000, prob: 0.5 }) / 0.017839011145854212 - 1).toBeCloseTo(0, 12);
  });

  test("a quantile is the smallest count that reaches the share, also when it reaches it exactly", () => {
    expect(binomialQuantile(0.5, { n: 1, prob: 0.5 })).toBe(0);
    expect(binomialQuantile(0.5000001, { n: 1, prob: 0.5 })).toBe(1);
    expect(binomialQuantile(0.975, { n: 40, prob: 0.3 })).toBe(18);
    expect(binomialQuantile(1e-9, { n: 100, prob: 0.1 }, "upper")).toBe(32);
    expect(binomialQuantile(0, { n: 9, prob: 0.3 })).toBe(0);
    expect(binomialQuantile(1, { n: 9, prob: 0.3 })).toBe(9);
  });

  test.each([
    ["n", { n: 2.5, prob: 0.1 }],
    ["prob", { n: 5, prob: 1.1 }],
  ])("%s is refused by name", (argument, trials) => {
    expect(() => binomialDistribution({ of: "cdf", x: 1, ...trials })).toThrow(new RegExp(`^${argument} is`));
  });
});

describe("draws without replacement", () => {
  test.each([
    // count  population successes draws  P(X <= count)  why
    [0, 6, 3, 3, 1 / 20, "one of 20 draws"],
    [1, 6, 3, 3, 10 / 20, "1 + 9 of 20"],
    [2, 5, 5, 2, 1, "only marked ones"],
    [0, 5, 0, 2, 1, "no marked ones"],
    [1, 4, 3, 3, 0, "two of three marked ones must come"],
  ])("at most %d of %d, %d, %d: %d (%s)", (count, population, successes, draws, expected) => {
    expect(hypergeometricCdf(count, { population, successes, draws })).toBeCloseTo(expected, 14);
    expect(hypergeometricSf(count, { population, successes, draws })).toBeCloseTo(1 - expected, 14);
  });

  test("equals counting, and the tails make one", () => {
    const whole = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(whole, fc.nat(60), fc.nat(60), (population, a, b) => {
        const draw = { population, successes: Math.min(a, population), draws: Math.min(b, population) };
        const { least, most } = hypergeometricRange(draw);
        let sum = 0;
        for (let count = least; count <= most; count++) {
          sum += Math.exp(hypergeometricLogPmf(count, draw));
          expect(Math.abs(hypergeometricCdf(count, draw) - sum)).toBeLessThan(1e-12);
          expect(Math.abs(hypergeometricSf(count, draw) - (1 - sum))).toBeLessThan(1e-12);
        }
        expect(sum).toBeCloseTo(1, 12);
      }),
      { numRuns: 60 },
    );
  });

  test("far tails keep their digits", () => {
    const draw = { population: 200, successes: 60, draws: 50 };
    expect(hypergeometricSf(30, draw) / 4.001983859336738e-8 - 1).toBeCloseTo(0, 11);
    expect(
      hypergeometricDistribution({ of: "logCdf", x: 2, population: 1000, successes: 500, draws: 100 }).value,
    ).toBeCloseTo(-65.86268659490572, 9);
    expect(hypergeometricQuantile(0.95, { population: 50, successes: 20, draws: 10 })).toBe(6);
  });

  test.each([
    ["draws", { population: 10, successes: 4, draws: 11 }],
    ["successes", { population: 10, successes: 11, draws: 4 }],
    ["population", { population: -1, successes: 0, draws: 0 }],
  ])("%s is refused by name", (argument, draw) => {
    expect(() => hypergeometricCdf(1, draw)).toThrow(new RegExp(`^${argument} is`));
  });
});
