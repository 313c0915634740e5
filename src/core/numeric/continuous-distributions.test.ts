import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { betaDistribution, betaQuantile } from "./beta-distribution.ts";
import { chi2Cdf, chi2LogCdf, chi2LogSf, chi2Quantile, chi2Sf } from "./chi2-distribution.ts";
import { fCdf, fLogCdf, fLogSf, fQuantile, fSf } from "./f-distribution.ts";
import { gammaDistribution, gammaQuantile } from "./gamma-distribution.ts";
import {
  noncentralTCdf,
  noncentralTLogCdf,
  noncentralTLogSf,
  noncentralTQuantile,
  noncentralTSf,
} from "./noncentral-t-distribution.ts";
import { normalCdf, normalLogCdf, normalLogSf, normalQuantile, normalSf } from "./normal-distribution.ts";
import {
  studentizedRangeCdf,
  studentizedRangeLogCdf,
  studentizedRangeLogSf,
  studentizedRangeQuantile,
  studentizedRangeSf,
} from "./studentized-range-distribution.ts";
import { tCdf, tLogCdf, tLogSf, tQuantile, tSf, tTwoSided } from "./t-distribution.ts";

function near(got: number, expected: number, relative = 1e-11) {
  expect(Math.abs(got / expected - 1), `${got} against ${expected}`).toBeLessThan(relative);
}

describe("quantiles that stand in every printed table", () => {
  test.each([
    // what                              got                                       printed    status
    ["z 0.975", () => normalQuantile(0.975), 1.959964],
    ["t 0.975, 1 df", () => tQuantile(0.975, 1), 12.7062],
    ["t 0.975, 10 df", () => tQuantile(0.975, 10), 2.2281],
    ["t upper 0.005, 30 df", () => tQuantile(0.005, 30, "upper"), 2.75],
    ["chi-square 0.95, 1 df", () => chi2Quantile(0.95, 1), 3.8415],
    ["chi-square 0.95, 10 df", () => chi2Quantile(0.95, 10), 18.307],
    ["F 0.95, 2 and 10 df", () => fQuantile(0.95, 2, 10), 4.1028],
    ["studentized range 0.95, 3 groups, 10 df", () => studentizedRangeQuantile(0.95, { groups: 3, df: 10 }), 3.877],
    ["studentized range 0.99, 5 groups, 20 df", () => studentizedRangeQuantile(0.99, { groups: 5, df: 20 }), 5.293],
  ] as const)("%s", (_, quantile, printed) => {
    expect(Math.abs(quantile() - printed)).toBeLessThan(0.6e-3);
  });
});

describe("tails keep their digits", () => {
  test.each([
    // what                               got                                expected (50-digit arithmetic)
    ["normal, 7 SD", () => normalSf(7), 1.279812543885835e-12],
    ["normal, 37 SD below", () => normalCdf(-37), 5.725571222524576e-300],
    ["ln normal where the tail underflows", () => normalLogSf(60), -1805.013560680567],
    ["ln (1 - tiny)", () => normalLogCdf(8), -6.220960574271786e-16],
    ["t, 60 and 8 df", () => tSf(60, 8), 3.307557923957414e-12],
    ["ln t far out", () => tLogSf(400, 12), -59.170753783819286],
    ["F, 900 with 2 and 20 df", () => fSf(900, 2, 20), 2.5679471225603105e-20],
    ["chi-square 200, 3 df", () => chi2Sf(200, 3), 4.2185411071920426e-43],
    [
      "chi-square where the library fades",
      () => chi2Sf(2873.2360632812056, 718.8657939471609),
      2.0391471744270493e-254,
    ],
    ["ln chi-square far out", () => chi2LogSf(3000, 10), -1473.9225038383356],
    [
      "beta where the library is 0",
      () => betaDistribution({ of: "sf", x: 0.9405005534724801, a: 25.9077303128304, b: 266.68389982209357 }).value,
      2.4886731497989756e-292,
    ],
    ["gamma", () => gammaDistribution({ of: "sf", x: 2000, shape: 2, scale: 20 }).value, 3.757276735781044e-42],
    ["noncentral t", () => noncentralTSf(12, { df: 10, ncp: 2.5 }), 8.65918375042469e-5],
    ["studentized range", () => studentizedRangeSf(25, { groups: 4, df: 12 }), 3.1224269401e-9],
  ] as const)("%s", (_, tail, expected) => {
    near(tail(), expected, 1e-10);
  });
});

describe("laws", () => {
  const df = fc.double({ min: 0.5, max: 300, noNaN: true });
  const x = fc.double({ min: -40, max: 40, noNaN: true });
  const p = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true });

  test("both tails make one, and t is symmetric", () => {
    fc.assert(
      fc.property(x, df, (at, degrees) => {
        expect(tCdf(at, degrees) + tSf(at, degrees)).toBeCloseTo(1, 13);
        expect(tCdf(-at, degrees)).toBe(tSf(at, degrees));
        expect(chi2Cdf(Math.abs(at), degrees) + chi2Sf(Math.abs(at), degrees)).toBeCloseTo(1, 12);
      }),
    );
  });

  test("logarithms are those of the tails, both tails of every distribution", () => {
    const noncentral = { df: 6.5, ncp: 1.4 };
    const range = { groups: 4, df: 11 };
    const pairs: [(at: number) => number, (at: number) => number][] = [
      [(at) => tLogCdf(-at, 7), (at) => tCdf(-at, 7)],
      [(at) => tLogSf(at, 7), (at) => tSf(at, 7)],
      [(at) => chi2LogCdf(at, 3), (at) => chi2Cdf(at, 3)],
      [(at) => chi2LogSf(at, 3), (at) => chi2Sf(at, 3)],
      [(at) => fLogCdf(at, 3, 8), (at) => fCdf(at, 3, 8)],
      [(at) => fLogSf(at, 3, 8), (at) => fSf(at, 3, 8)],
      [(at) => noncentralTLogCdf(-at, noncentral), (at) => noncentralTCdf(-at, noncentral)],
      [(at) => noncentralTLogSf(at, noncentral), (at) => noncentralTSf(at, noncentral)],
      [(at) => studentizedRangeLogCdf(at, range), (at) => studentizedRangeCdf(at, range)],
      [(at) => studentizedRangeLogSf(at, range), (at) => studentizedRangeSf(at, range)],
    ];
    for (const [log, tail] of pairs) for (const at of [0.05, 0.7, 2, 6, 18]) near(Math.exp(log(at)), tail(at), 1e-10);
  });

  test("t with 1 df is Cauchy's, chi-square with 2 df exponential: both have a closed form", () => {
    fc.assert(
      fc.property(x, (at) => {
        near(tCdf(at, 1), at < 0 ? Math.atan(-1 / at) / Math.PI : 0.5 + Math.atan(at) / Math.PI, 1e-11);
        near(chi2Sf(Math.abs(at), 2), Math.exp(-Math.abs(at) / 2), 1e-11);
      }),
    );
  });

  test("t with 1 df keeps its digits right beside the middle", () => {
    // The library's arcsine law gave 0.49999999526 for the first, and 0.5 nearer by.
    for (const at of [1e-8, 1.57e-11, 1e-6, 1e-4]) near(tSf(at, 1), Math.atan(1 / at) / Math.PI, 1e-14);
  });

  test("quantiles undo probabilities", () => {
    fc.assert(
      fc.property(p, df, df, (share, first, second) => {
        const tail = share < 0.5 ? "lower" : "upper";
        const small = Math.min(share, 1 - share);
        const back = (lower: number, upper: number) => near(tail === "lower" ? lower : upper, small, 1e-9);
        const z = normalQuantile(small, tail);
        back(normalCdf(z), normalSf(z));
        const t = tQuantile(small, first, tail);
        back(tCdf(t, first), tSf(t, first));
        const f = fQuantile(small, first, second, tail);
        back(fCdf(f, first, second), fSf(f, first, second));
        const chi2 = chi2Quantile(small, first, tail);
        back(chi2Cdf(chi2, first), chi2Sf(chi2, first));
      }),
    );
  });

  test("F with 1 df is the square of t; chi-square with 1 df the square of z; gamma is a stretched chi-square", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 20, noNaN: true }), df, (at, degrees) => {
        near(fSf(at * at, 1, degrees), tTwoSided(at, degrees), 1e-10);
        near(chi2Sf(at * at, 1), 2 * normalSf(at), 1e-10);
        near(gammaQuantile(0.3, { shape: degrees / 2, scale: 2 }), chi2Quantile(0.3, degrees), 1e-12);
      }),
    );
  });

  test("beta turns over: the lower tail of (a, b) is the upper of (b, a)", () => {
    near(betaQuantile(0.1, { a: 2, b: 7 }), 1 - betaQuantile(0.1, { a: 7, b: 2 }, "upper"), 1e-12);
  });

  test("a noncentral t without shift is t, and turning the shift turns the tail", () => {
    for (const at of [-5, -0.3, 0, 1.2, 8]) {
      near(noncentralTCdf(at, { df: 4, ncp: 0 }), tCdf(at, 4), 1e-10);
      near(noncentralTSf(at, { df: 7.5, ncp: 1.3 }), noncentralTCdf(-at, { df: 7.5, ncp: -1.3 }), 1e-10);
    }
    const shape = { df: 7, ncp: 1.2 };
    near(noncentralTCdf(noncentralTQuantile(0.03, shape), shape), 0.03, 1e-9);
  });

  test("the studentized range of two groups is √2 |t|, and its quantiles undo it", () => {
    for (const q of [0.2, 1, 3, 9, 40])
      near(studentizedRangeSf(q, { groups: 2, df: 5 }), tTwoSided(q / Math.SQRT2, 5), 1e-9);
    const shape = { groups: 6, df: 9.5 };
    near(studentizedRangeCdf(studentizedRangeQuantile(0.2, shape), shape), 0.2, 1e-9);
    near(studentizedRangeSf(studentizedRangeQuantile(1e-6, shape, "upper"), shape), 1e-6, 1e-9);
    expect(studentizedRangeCdf(20, { groups: 5, df: 27.5 })).toBeCloseTo(1, 10);
  });
});

describe("refusals", () => {
  test.each([
    ["df", () => tSf(1, 0)],
    ["df", () => chi2Quantile(0.5, Number.NaN)],
    ["df2", () => fSf(1, 2, -1)],
    ["p", () => normalQuantile(0)],
    ["p", () => tQuantile(1.1, 3)],
    ["p", () => chi2Quantile(1, 3)],
    ["p", () => fQuantile(0, 2, 3, "upper")],
    ["groups", () => studentizedRangeSf(3, { groups: 1, df: 9 })],
    ["x", () => gammaDistribution({ of: "logCdf", x: -1, shape: 1, scale: 1 })],
    ["of", () => betaDistribution({ of: "mean" as "cdf", x: 0.5, a: 1, b: 1 })],
  ])("%s is named", (argument, ask) => {
    expect(ask).toThrow(new RegExp(`^${argument} is .* expected`));
  });

  test("quantiles of far tails with tiny shapes: the leading term, or a refusal, never NaN", () => {
    // P(X <= x) = x^a / (a B(a, b)) this close to 0; with b = 1 that is x^a
    near(betaQuantile(1e-100, { a: 0.5, b: 1 }), 1e-200, 1e-11);
    expect(betaQuantile(1e-300, { a: 0.1, b: 1 })).toBe(0); // 1e-3000: nearer to 0 than any number
    expect(() => tQuantile(1e-200, 0.3)).toThrow(
      /^p is 1e-200; expected a probability whose quantile is a finite number/,
    );
  });

  test("the ends of a bounded range have their quantiles", () => {
    expect(chi2Quantile(0, 3)).toBe(0);
    expect(betaQuantile(1, { a: 2, b: 3 })).toBe(1);
    expect(betaQuantile(1, { a: 2, b: 3 }, "upper")).toBe(0);
  });
});
