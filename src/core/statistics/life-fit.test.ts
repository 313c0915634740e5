import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exponentialMle } from "./exponential-mle.ts";
import type { InspectionInterval } from "./inspection-interval.ts";
import { lognormalMle } from "./lognormal-mle.ts";
import { timeFactor } from "./time-factor.ts";
import { weibullMle } from "./weibull-mle.ts";

const between = (leftDays: number, rightDays: number | null): InspectionInterval => ({ leftDays, rightDays });
const clean = (leftDays: number) => between(leftDays, null);
const exact = (days: number) => between(days, days);
const confidence = 0.95;
const four = [between(7, 14), between(14, 21), between(21, 28), between(35, 42)];
/** Data with a maximum for certain: one early, one late, some between. */
const spread = fc
  .array(fc.integer({ min: 1, max: 8 }), { minLength: 1, maxLength: 5 })
  .map((weeks) => [between(0, 7), ...weeks.map((week) => between(7 * week, 7 * week + 7)), between(21, 28), clean(63)]);

describe("Weibull fit", () => {
  test("two exact times, by hand: the shape makes ln times and their weights agree", () => {
    // For times 1 and 2 (in tens of days) the score for the shape k is 2/k + ln 2 - 2 · 2^k ln 2 / (1 + 2^k) = 0.
    const { shape, scaleDays } = weibullMle({ observations: [exact(10), exact(20)], confidence });
    const weight = 2 ** shape;
    expect(2 / shape + Math.LN2 - (2 * weight * Math.LN2) / (1 + weight)).toBeCloseTo(0, 7);
    expect(scaleDays).toBeCloseTo(10 * ((1 + weight) / 2) ** (1 / shape), 6);
  });

  test("the shape's ends are where the fit with that shape has lost half of chi-square", () => {
    const { shapeLower, logLikelihood } = weibullMle({ observations: four, confidence });
    // With the shape held, times to that power are exponential: density t^(k-1) k belongs to exact times only.
    const held = four.map(({ leftDays: l, rightDays: r }) => between(l ** shapeLower!, r! ** shapeLower!));
    const inPower = exponentialMle({ observations: held, confidence }).logLikelihood;
    expect(2 * (logLikelihood - inPower)).toBeCloseTo(3.841458820694124, 5);
  });

  test("days or hours: the shape stays, the times scale", () => {
    const hours = four.map(({ leftDays: l, rightDays: r }) => between(24 * l, 24 * r!));
    const [inDays, inHours] = [four, hours].map((observations) => weibullMle({ observations, confidence }));
    expect(inHours!.shape).toBeCloseTo(inDays!.shape, 7);
    expect(inHours!.b10LowerDays! / 24).toBeCloseTo(inDays!.b10LowerDays!, 5);
  });

  test("never below the exponential fit, and B10 lies between its ends", () => {
    fc.assert(
      fc.property(spread, (observations) => {
        const fit = weibullMle({ observations, confidence });
        const plain = exponentialMle({ observations, confidence });
        expect(fit.logLikelihood).toBeGreaterThanOrEqual(plain.logLikelihood - 1e-9);
        expect(fit.b10Days).toBeLessThan(fit.medianDays);
        expect(fit.b10LowerDays ?? 0).toBeLessThan(fit.b10Days);
        expect(fit.b10UpperDays ?? Number.POSITIVE_INFINITY).toBeGreaterThan(fit.b10Days);
        expect(fit.shapeLower ?? 0).toBeLessThan(fit.shape);
      }),
      { numRuns: 12 },
    );
  });
});

describe("no maximum at a finite shape: refused, not printed as shape 200", () => {
  test.each([
    ["no rust on any", [clean(42), clean(42), clean(28)], /without any rust/],
    ["all in one look", [between(7, 14), between(7, 14)], /2 x \(7, 14\].*finite shape/],
    ["all in two touching looks", [between(7, 14), between(7, 14), between(14, 21)], /finite shape/],
    ["one exact time", [exact(12)], /finite shape/],
    ["equal exact times", [exact(12), exact(12), exact(12)], /finite shape/],
    ["all by the first look", [between(0, 7), between(0, 14)], /all rusted by their first look/],
    ["early or never", [between(0, 7), between(0, 7), clean(42)], /finite shape/],
    ["one look each, same share at both", [between(0, 14), clean(14), between(0, 28), clean(28)], /finite shape/],
    ["one look each, share falling", [between(0, 14), clean(14), between(0, 28), clean(28), clean(28)], /finite shape/],
    ["one look, all alike", [between(0, 14), clean(14), clean(14)], /finite shape/],
    ["one in a look, the rest clean at its end", [between(7, 14), clean(14)], /finite shape/],
  ])("%s", (_, observations, message) => {
    expect(() => weibullMle({ observations, confidence })).toThrow(message);
    expect(() => lognormalMle({ observations, confidence })).toThrow(message);
  });
});

describe("exponential fit", () => {
  test.each([
    ["exact and clean: all days over the number rusted", [exact(10), exact(30), clean(50)], 45],
    ["all in one look has a maximum", [between(7, 14), between(7, 14)], 7 / Math.LN2],
    ["half rusted at one look", [between(0, 10), clean(10)], 10 / Math.LN2],
  ])("%s", (_, observations, meanDays) => {
    expect(exponentialMle({ observations, confidence }).meanDays).toBeCloseTo(meanDays, 9);
  });

  test.each([
    ["no rust", [clean(42)], /without any rust/],
    ["all by the first look", [between(0, 7)], /all rusted by their first look/],
  ])("refuses %s", (_, observations, message) => {
    expect(() => exponentialMle({ observations, confidence })).toThrow(message);
  });
});

describe("lognormal fit", () => {
  test("exact times: mean and root mean square of their logarithms", () => {
    const { mu, sigma } = lognormalMle({ observations: [exact(1), exact(Math.exp(2))], confidence });
    expect(mu).toBeCloseTo(1, 9);
    expect(sigma).toBeCloseTo(1, 9);
  });
});

describe("time factor", () => {
  const late = [between(14, 21), between(28, 35), between(35, 42), clean(56)];
  const input = { distribution: "weibull", control: four, treated: late, confidence } as const;

  test("swap the groups: the factor and its ends turn over, p stays", () => {
    const one = timeFactor(input);
    const other = timeFactor({ ...input, control: late, treated: four });
    expect(other.timeFactor).toBeCloseTo(1 / one.timeFactor!, 7);
    expect(other.lower).toBeCloseTo(1 / one.upper!, 6);
    expect(other.upper).toBeCloseTo(1 / one.lower!, 6);
    expect(other.p).toBeCloseTo(one.p, 9);
  });

  test.each(["weibull", "lognormal"] as const)("%s: times twice as long give factor 2", (distribution) => {
    const twice = four.map(({ leftDays: l, rightDays: r }) => between(2 * l, 2 * r!));
    const found = timeFactor({ distribution, control: four, treated: twice, confidence });
    expect(found.timeFactor).toBeCloseTo(2, 7);
    expect(found.lower! * found.upper!).toBeCloseTo(4, 5);
  });

  test("treated all clean: only a lower end, with the control's own shape", () => {
    const found = timeFactor({ ...input, treated: [clean(56), clean(56), clean(56), clean(56)] });
    expect(found).toMatchObject({ timeFactor: null, upper: null });
    expect(found.lower).toBeGreaterThan(1);
    expect("shape" in found && found.shape).toBeCloseTo(weibullMle({ observations: four, confidence }).shape, 7);
  });

  test("control all rusted by the first look: only a lower end too", () => {
    const found = timeFactor({ ...input, control: [between(0, 7), between(0, 7), between(0, 7)], treated: four });
    expect(found).toMatchObject({ timeFactor: null, upper: null });
    expect(found.lower).toBeGreaterThan(0);
  });

  test.each([
    ["both clean", [clean(56)], [clean(56), clean(42)], /^control is/],
    ["what a very good trial looks like", [between(7, 14), between(7, 14)], [clean(56), clean(56)], /finite shape/],
    ["an empty group", [], [clean(56)], /^control is \[\]/],
  ])("refuses %s", (_, control, treated, message) => {
    expect(() => timeFactor({ ...input, control, treated })).toThrow(message);
  });
});
