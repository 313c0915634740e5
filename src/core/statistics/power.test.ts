import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { minimalDetectable } from "./minimal-detectable.ts";
import { logRankSchoenfeld } from "./power-log-rank-schoenfeld.ts";
import { powerTOneSample } from "./power-t-one-sample.ts";
import { powerTTwoSample } from "./power-t-two-sample.ts";
import { twoProportionsExact } from "./power-two-proportions.ts";
import { wilcoxonProportionalHazards } from "./power-wilcoxon-hazards.ts";
import { wilcoxonOrdinal } from "./power-wilcoxon-ordinal.ts";
import { sampleSizeT } from "./sample-size-t.ts";
import { smallestPossibleP } from "./smallest-possible-p.ts";

describe("t test", () => {
  test("without a difference the power is alpha", () => {
    expect(powerTTwoSample({ n1: 1, n2: 5, differenceInSd: 0, alpha: 0.05 }).power).toBeCloseTo(0.05, 10);
    expect(powerTOneSample({ n: 2, differenceInSd: 0, alpha: 0.1 }).power).toBeCloseTo(0.1, 8);
  });

  test("the detectable difference has the power asked for", () => {
    const size = fc.integer({ min: 1, max: 12 });
    fc.assert(
      fc.property(size, size, fc.constantFrom(0.5, 0.8, 0.95), (n1, n2, power) => {
        fc.pre(n1 + n2 > 2);
        const { differenceInSd } = minimalDetectable({ design: "twoSample", n1, n2, alpha: 0.05, power });
        expect(powerTTwoSample({ n1, n2, differenceInSd, alpha: 0.05 }).power).toBeCloseTo(power, 8);
      }),
      { numRuns: 12 },
    );
  });

  test("the sample size is enough and one fewer is not", () => {
    for (const differenceInSd of [0.5, 1, -1.7]) {
      const { nPerGroup: n, achievedPower } = sampleSizeT({ differenceInSd, alpha: 0.05, power: 0.8 });
      expect(achievedPower).toBeGreaterThanOrEqual(0.8);
      expect(powerTTwoSample({ n1: n - 1, n2: n - 1, differenceInSd, alpha: 0.05 }).power).toBeLessThan(0.8);
    }
  });

  test("refuses what has no answer", () => {
    expect(() => powerTTwoSample({ n1: 1, n2: 1, differenceInSd: 2, alpha: 0.05 })).toThrow(/^n1 is 1/);
    expect(() => sampleSizeT({ differenceInSd: 0, alpha: 0.05, power: 0.8 })).toThrow(/^differenceInSd is 0/);
    expect(() => minimalDetectable({ design: "oneSample", n: 5, alpha: 0.05, power: 0.04 })).toThrow(/^power is 0\.04/);
  });
});

describe("Fisher's test of two shares", () => {
  test("certain outcomes, 3 and 3: p is 0.1, so never at 5 % and always at 10 %", () => {
    const plan = { p1: 0, p2: 1, n1: 3, n2: 3 };
    expect(twoProportionsExact({ ...plan, alpha: 0.05 }).power).toBe(0);
    expect(twoProportionsExact({ ...plan, alpha: 0.1 }).power).toBeCloseTo(1, 12);
  });

  test("the size never passes alpha, and the groups may be swapped", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 7 }), (p1, p2, n1, n2) => {
        expect(twoProportionsExact({ p1, p2: p1, n1, n2, alpha: 0.05 }).power).toBeLessThanOrEqual(0.05 + 1e-9);
        expect(twoProportionsExact({ p1, p2, n1, n2, alpha: 0.2 }).power).toBeCloseTo(
          twoProportionsExact({ p1: p2, p2: p1, n1: n2, n2: n1, alpha: 0.2 }).power,
          10,
        );
      }),
      { numRuns: 40 },
    );
  });
});

describe("rank-sum test", () => {
  test("4 and 4, by hand: only the two extreme orders count", () => {
    // Hazard ratio 10: the four of the first rust before any of the second with 40/44 · 30/34 · 20/24 · 10/14.
    const h = 10;
    const firstAll = [4, 3, 2, 1].reduce((chance, a) => (chance * a * h) / (a * h + 4), 1);
    const secondAll = [4, 3, 2, 1].reduce((chance, b) => (chance * b) / (4 * h + b), 1);
    const { power } = wilcoxonProportionalHazards({ n1: 4, n2: 4, hazardRatio: h, alpha: 0.05 });
    expect(power).toBeCloseTo(firstAll + secondAll, 12);
  });

  test("hazards: equal ones give the true size; turned over with swapped groups", () => {
    const size = fc.integer({ min: 1, max: 6 });
    fc.assert(
      fc.property(size, size, fc.constantFrom(0.2, 1, 3), (n1, n2, hazardRatio) => {
        const { power } = wilcoxonProportionalHazards({ n1, n2, hazardRatio, alpha: 0.1 });
        if (hazardRatio === 1) expect(power).toBeLessThanOrEqual(0.1 + 1e-9);
        const swapped = { n1: n2, n2: n1, hazardRatio: 1 / hazardRatio, alpha: 0.1 };
        expect(wilcoxonProportionalHazards(swapped).power).toBeCloseTo(power, 10);
      }),
      { numRuns: 40 },
    );
  });

  test("grades: two classes of equal groups are Fisher's test", () => {
    const ordinal = wilcoxonOrdinal({
      probabilities1: [0.9, 0.1],
      probabilities2: [0.2, 0.8],
      n1: 5,
      n2: 5,
      alpha: 0.05,
    });
    expect(ordinal.power).toBeCloseTo(twoProportionsExact({ p1: 0.9, p2: 0.2, n1: 5, n2: 5, alpha: 0.05 }).power, 12);
  });

  test("grades: the classes may be turned round, an empty class changes nothing", () => {
    const plan = { n1: 3, n2: 4, alpha: 0.1 };
    const straight = wilcoxonOrdinal({ probabilities1: [0.6, 0.3, 0.1], probabilities2: [0.1, 0.2, 0.7], ...plan });
    const turned = wilcoxonOrdinal({ probabilities1: [0.1, 0.3, 0.6], probabilities2: [0.7, 0.2, 0.1], ...plan });
    const padded = wilcoxonOrdinal({ probabilities1: [0.6, 0, 0.3, 0.1], probabilities2: [0.1, 0, 0.2, 0.7], ...plan });
    expect(turned.power).toBeCloseTo(straight.power, 12);
    expect(padded.power).toBeCloseTo(straight.power, 12);
  });

  test("refuses probabilities that do not add up to 1, and a hazard ratio of 0", () => {
    const plan = { n1: 4, n2: 4, alpha: 0.05 };
    expect(() => wilcoxonOrdinal({ probabilities1: [0.5, 0.4], probabilities2: [0.5, 0.5], ...plan })).toThrow(
      /^probabilities1 is/,
    );
    expect(() => wilcoxonProportionalHazards({ hazardRatio: 0, ...plan })).toThrow(/^hazardRatio is 0/);
  });
});

describe("what a design can show at best", () => {
  const pairs = (blocks: number) => Array.from({ length: blocks }, () => ({ n1: 1, n2: 1 }));
  test.each([
    ["one each: nothing can be shown", [{ n1: 1, n2: 1 }], 1, 1, false],
    ["3 and 3", [{ n1: 3, n2: 3 }], 1, 0.1, false],
    ["4 and 4, one comparison", [{ n1: 4, n2: 4 }], 1, 2 / 70, true],
    ["4 and 4, five comparisons", [{ n1: 4, n2: 4 }], 5, 10 / 70, false],
    ["1 and 39 reaches 0.05 itself", [{ n1: 1, n2: 39 }], 1, 0.05, true],
    ["pairs in 5 blocks", pairs(5), 1, 0.0625, false],
    ["pairs in 6 blocks", pairs(6), 1, 0.03125, true],
    ["2 and 2 in 3 blocks", [1, 2, 3].map(() => ({ n1: 2, n2: 2 })), 1, 2 / 216, true],
  ])("%s", (_, blocks, comparisons, p, reached) => {
    const found = smallestPossibleP({ blocks, alpha: 0.05, comparisons });
    expect(found.smallestAdjustedP).toBeCloseTo(p, 12);
    expect(found.canReachAlpha).toBe(reached);
  });

  test.each([
    ["no blocks", [], /^blocks is \[\]/],
    ["a block without one of the treatments", [{ n1: 0, n2: 3 }], /^blocks\[0\]\.n1 is 0/],
  ])("refuses %s", (_, blocks, message) => {
    expect(() => smallestPossibleP({ blocks, alpha: 0.05 })).toThrow(message);
  });
});

describe("events for the log-rank test", () => {
  test("a ratio and its inverse need the same; unequal shares need more", () => {
    const plan = { alpha: 0.05, power: 0.8 };
    const { events } = logRankSchoenfeld({ ...plan, hazardRatio: 2 });
    expect(logRankSchoenfeld({ ...plan, hazardRatio: 0.5 }).events).toBeCloseTo(events, 10);
    expect(logRankSchoenfeld({ ...plan, hazardRatio: 2, shareFirst: 0.2 }).events).toBeCloseTo(
      (events * 0.25) / 0.16,
      9,
    );
    expect(() => logRankSchoenfeld({ ...plan, hazardRatio: 1 })).toThrow(/^hazardRatio is 1/);
  });
});
