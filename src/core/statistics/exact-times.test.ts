import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { kaplanMeier } from "./kaplan-meier.ts";
import { logRank } from "./log-rank.ts";
import { successRun } from "./success-run.ts";
import { successRunUnits } from "./success-run-units.ts";
import type { TimedCoupon } from "./timed-coupon.ts";
import { turnbull } from "./turnbull.ts";
import { weibayes } from "./weibayes.ts";
import { weibullMle } from "./weibull-mle.ts";
import { zeroFailureBound } from "./zero-failure-bound.ts";

const rust = (days: number): TimedCoupon => ({ days, event: true });
const clean = (days: number): TimedCoupon => ({ days, event: false });
const coupons = fc.array(fc.record({ days: fc.integer({ min: 1, max: 12 }), event: fc.boolean() }), {
  minLength: 1,
  maxLength: 12,
});

describe("Kaplan-Meier", () => {
  test("one coupon, rusted: 1 before, 0 after, nothing to say about the spread", () => {
    const found = kaplanMeier({ observations: [rust(7)], atDays: [6, 7, 90], confidence: 0.95 });
    expect(found).toEqual({
      survival: [1, 0, 0],
      standardError: [0, null, null],
      lower: [null, null, null],
      upper: [null, null, null],
      medianDays: 7,
    });
  });

  test("none rusted: no median, and nothing is said beyond the last look", () => {
    const found = kaplanMeier({ observations: [clean(30), clean(42)], atDays: [42, 43], confidence: 0.95 });
    expect(found).toMatchObject({ survival: [1, null], standardError: [0, null], medianDays: null });
  });

  test("taken away on the day another rusts: still at risk on it", () => {
    const { survival } = kaplanMeier({ observations: [rust(7), clean(7)], atDays: [7], confidence: 0.95 });
    expect(survival).toEqual([0.5]);
  });

  test("is Turnbull's estimate of the same exact times", () => {
    fc.assert(
      fc.property(coupons, (observations) => {
        const atDays = [1, 3, 5, 8, 11];
        const intervals = observations.map(({ days, event }) => ({ leftDays: days, rightDays: event ? days : null }));
        const upper = turnbull({ observations: intervals, atDays }).survivalUpper;
        const { survival } = kaplanMeier({ observations, atDays, confidence: 0.9 });
        for (const [at, value] of survival.entries()) if (value !== null) expect(value).toBeCloseTo(upper[at]!, 8);
      }),
    );
  });

  test("refuses a look that is no time, and an event in words", () => {
    expect(() => kaplanMeier({ observations: [rust(0)], atDays: [1], confidence: 0.9 })).toThrow(
      /^observations\[0\]\.days is 0/,
    );
    const worded = [{ days: 4, event: "yes" }] as unknown as TimedCoupon[];
    expect(() => kaplanMeier({ observations: worded, atDays: [1], confidence: 0.9 })).toThrow(
      /^observations\[0\]\.event/,
    );
  });
});

describe("none rusted", () => {
  test.each([
    [1, 0.95, 0.05],
    [4, 0.95, 0.05 ** 0.25],
    [22, 0.9, 0.1 ** (1 / 22)],
  ])("%d clean at confidence %d prove %d", (units, confidence, reliability) => {
    expect(successRun({ units, confidence }).reliabilityLower).toBeCloseTo(reliability, 12);
    expect(zeroFailureBound({ trials: units, confidence }).upper).toBeCloseTo(1 - reliability, 12);
  });

  test.each([
    [0.9, 0.95, 29],
    [0.5, 0.75, 2],
    [0.1, 0.05, 1],
  ])("reliability %d at confidence %d takes %d", (reliability, confidence, units) => {
    expect(successRunUnits({ reliability, confidence }).units).toBe(units);
  });

  test("so many units prove it and one fewer does not", () => {
    const share = fc.integer({ min: 1, max: 99 }).map((percent) => percent / 100);
    fc.assert(
      fc.property(share, share, (reliability, confidence) => {
        const { units } = successRunUnits({ reliability, confidence });
        expect(successRun({ units, confidence }).reliabilityLower).toBeGreaterThanOrEqual(reliability - 1e-8);
        if (units > 1) expect(successRun({ units: units - 1, confidence }).reliabilityLower).toBeLessThan(reliability);
      }),
    );
  });

  test("a large number keeps its digits", () => {
    expect(zeroFailureBound({ trials: 1e12, confidence: 0.95 }).upper).toBeCloseTo(2.995732273554e-12, 22);
  });

  test.each([0, 2.5, -1])("refuses %d units", (units) => {
    expect(() => successRun({ units, confidence: 0.9 })).toThrow(/^units is/);
    expect(() => zeroFailureBound({ trials: units, confidence: 0.9 })).toThrow(/^trials is/);
  });
});

describe("Weibayes", () => {
  test("no rust and all run alike: the reliability at that time is the success run", () => {
    const observations = Array.from({ length: 5 }, () => clean(42));
    for (const shape of [0.5, 2, 40]) {
      const { reliabilityLower, scaleDays } = weibayes({ observations, shape, confidence: 0.95, missionDays: 42 });
      expect(reliabilityLower).toBeCloseTo(successRun({ units: 5, confidence: 0.95 }).reliabilityLower, 10);
      expect(scaleDays).toBeNull();
    }
  });

  test("with the fitted shape the scale is the fitted one", () => {
    const observations = [rust(10), rust(17), rust(30), clean(35)];
    const intervals = observations.map(({ days, event }) => ({ leftDays: days, rightDays: event ? days : null }));
    const fit = weibullMle({ observations: intervals, confidence: 0.9 });
    expect(weibayes({ observations, shape: fit.shape, confidence: 0.9 }).scaleDays).toBeCloseTo(fit.scaleDays, 5);
  });

  test("refuses without a shape", () => {
    expect(() => weibayes({ observations: [clean(42)], shape: 0, confidence: 0.9 })).toThrow(/^shape is 0/);
  });
});

describe("log-rank for exact times", () => {
  test("two coupons by hand: at the first event one of two is expected to rust, with variance 1/4", () => {
    const found = logRank({ groups: [[rust(3)], [rust(8)]], stratified: false });
    // At day 8 one coupon is left: it was bound to be the one.
    expect(found).toMatchObject({ observedEvents: [1, 1], expectedEvents: [0.5, 1.5], df: 1 });
    expect(found.chi2).toBeCloseTo(1, 12);
  });

  test("groups in another order: the same chi-square; observed and expected add up alike", () => {
    fc.assert(
      fc.property(coupons, coupons, coupons, (a, b, c) => {
        const early = [rust(1), clean(2)];
        const groups = [[...a, ...early], [...b, ...early], c];
        const one = logRank({ groups, stratified: false });
        const other = logRank({ groups: [groups[2]!, groups[0]!, groups[1]!], stratified: false });
        expect(other.chi2).toBeCloseTo(one.chi2, 8);
        const sum = (numbers: number[]) => numbers.reduce((total, number) => total + number, 0);
        expect(sum(one.expectedEvents)).toBeCloseTo(sum(one.observedEvents), 9);
      }),
    );
  });

  test("a block that holds one group only adds expected events, no information", () => {
    const inBlock = (coupon: TimedCoupon, block: string) => ({ ...coupon, block });
    const groups = [
      [inBlock(rust(3), "a"), inBlock(rust(5), "a")],
      [inBlock(rust(8), "a"), inBlock(clean(9), "a")],
    ];
    const plain = logRank({ groups, stratified: true });
    const more = logRank({ groups: [[...groups[0]!, inBlock(rust(1), "b")], groups[1]!], stratified: true });
    expect(more.chi2).toBeCloseTo(plain.chi2, 12);
    expect(more.expectedEvents[0]).toBeCloseTo(plain.expectedEvents[0]! + 1, 12);
  });

  test.each([
    ["no events", [[clean(42)], [clean(42)]], false, /^groups is/],
    ["the only event falls when a single coupon is left", [[clean(3)], [rust(8)]], false, /^groups is/],
    ["no blocks", [[rust(3)], [rust(8)]], true, /^groups\[0\]\[0\]\.block is missing/],
  ])("refuses: %s", (_, groups, stratified, message) => {
    expect(() => logRank({ groups, stratified })).toThrow(message);
  });
});
