import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { contribution, type StandardDistribution } from "./location-scale-likelihood.ts";
import { lognormal } from "./lognormal-likelihood.ts";
import { weibull } from "./weibull-likelihood.ts";

const observations = [
  ["exact", { leftDays: 12, rightDays: 12 }],
  ["rust at the first look", { leftDays: 0, rightDays: 7 }],
  ["between looks", { leftDays: 7, rightDays: 14 }],
  ["a narrow step", { leftDays: 20, rightDays: 20.001 }],
  ["clean at the last look", { leftDays: 42, rightDays: null }],
] as const;
const distributions: [string, StandardDistribution][] = [
  ["weibull", weibull],
  ["lognormal", lognormal],
];

describe.each(distributions)("share in the %s likelihood", (_, distribution) => {
  test.each(observations)("%s: the derivatives are those of the value", (_, interval) => {
    const at = (location: number, logScale: number) => contribution(distribution, interval, { location, logScale });
    const location = fc.double({ min: 1.5, max: 4.5, noNaN: true });
    const logScale = fc.double({ min: -1, max: 1, noNaN: true });
    const d = 1e-5;
    fc.assert(
      fc.property(location, logScale, (m, s) => {
        const here = at(m, s);
        const close = (found: number, difference: number) =>
          expect(Math.abs(found - difference / (2 * d))).toBeLessThan(1e-4 * Math.max(1, Math.abs(found)));
        close(here.byLocation, at(m + d, s).value - at(m - d, s).value);
        close(here.byLogScale, at(m, s + d).value - at(m, s - d).value);
        close(here.byLocationTwice, at(m + d, s).byLocation - at(m - d, s).byLocation);
        close(here.byBoth, at(m, s + d).byLocation - at(m, s - d).byLocation);
        close(here.byLogScaleTwice, at(m, s + d).byLogScale - at(m, s - d).byLogScale);
      }),
    );
  });

  test("the shares of the looks add up to 1", () => {
    const at = { location: 3, logScale: -0.3 };
    const looks = [
      { leftDays: 0, rightDays: 7 },
      { leftDays: 7, rightDays: 30 },
      { leftDays: 30, rightDays: 90 },
      { leftDays: 90, rightDays: null },
    ];
    const sum = looks.reduce((total, look) => total + Math.exp(contribution(distribution, look, at).value), 0);
    expect(sum).toBeCloseTo(1, 12);
  });

  test("far in the tail the logarithm keeps its digits", () => {
    const far = contribution(distribution, { leftDays: 1, rightDays: 1.1 }, { location: 8, logScale: -1.5 });
    const nearer = contribution(distribution, { leftDays: 1, rightDays: 1.1 }, { location: 7, logScale: -1.5 });
    expect(Number.isFinite(far.value)).toBe(true);
    expect(far.value).toBeLessThan(nearer.value);
  });

  test("clean at the start and never seen again says nothing", () => {
    expect(contribution(distribution, { leftDays: 0, rightDays: null }, { location: 1, logScale: 0 }).value).toBe(0);
  });
});

describe("Weibull, by hand", () => {
  test.each([
    // exponential of mean 10 days: shape 1
    [{ leftDays: 10, rightDays: null }, -1],
    [{ leftDays: 0, rightDays: 10 }, Math.log(1 - Math.exp(-1))],
    [{ leftDays: 10, rightDays: 20 }, Math.log(Math.exp(-1) - Math.exp(-2))],
    [{ leftDays: 10, rightDays: 10 }, -1 - Math.log(10)],
  ])("%j gives %d", (interval, value) => {
    expect(contribution(weibull, interval, { location: Math.log(10), logScale: 0 }).value).toBeCloseTo(value, 13);
  });
});
