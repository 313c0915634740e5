import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clopperPearson, jeffreys } from "./proportion-interval.ts";
import { wilsonInterval } from "./wilson-interval.ts";

const confidence = 0.95;
const intervals = { wilson: wilsonInterval, clopperPearson, jeffreys };
const count = fc.integer({ min: 0, max: 12 });

describe("interval of a share", () => {
  test.each([
    // method         successes trials  lower      upper      why
    ["clopperPearson", 0, 5, 0, 0.52182375, "none rusted is a bound: 1 - 0.025^(1/5)"],
    ["clopperPearson", 5, 5, 0.47817625, 1, "all rusted: 0.025^(1/5)"],
    ["wilson", 0, 5, 0, 0.434482465, "z² / (n + z²)"],
    ["wilson", 12, 400, 0.01724302, 0.05169854, "points on a photo"],
    ["wilson", 81, 263, 0.25528852, 0.36620958, "Newcombe 1998, published to four digits"],
    ["jeffreys", 0, 5, 0, 0.379377142, "0 at no success"],
    ["jeffreys", 3, 8, 0.11903918, 0.705176554, "beta(3.5, 5.5)"],
    ["clopperPearson", 1, 1, 0.025, 1, "one coupon"],
  ] as const)("%s of %d in %d: %d to %d (%s)", (method, successes, trials, lower, upper, _why) => {
    const found = intervals[method]({ successes, trials, confidence });
    expect(found.lower).toBeCloseTo(lower, 8);
    expect(found.upper).toBeCloseTo(upper, 8);
  });

  test("counting the clean ones instead of the rusted turns the interval over; the exact one is the widest", () => {
    fc.assert(
      fc.property(count, fc.integer({ min: 12, max: 30 }), (successes, trials) => {
        for (const interval of Object.values(intervals)) {
          const found = interval({ successes, trials, confidence });
          const turned = interval({ successes: trials - successes, trials, confidence });
          expect(found.lower).toBeCloseTo(1 - turned.upper, 10);
        }
        const exact = clopperPearson({ successes, trials, confidence });
        const even = jeffreys({ successes, trials, confidence });
        expect(exact.lower).toBeLessThanOrEqual(even.lower);
        expect(exact.upper).toBeGreaterThanOrEqual(even.upper);
      }),
    );
  });

  test.each([
    ["trials", { successes: 0, trials: 0, confidence }],
    ["successes", { successes: 6, trials: 5, confidence }],
    ["successes", { successes: 2.5, trials: 5, confidence }],
    ["confidence", { successes: 1, trials: 5, confidence: 95 }],
  ])("%s is refused by name", (argument, counted) => {
    for (const interval of Object.values(intervals))
      expect(() => interval(counted)).toThrow(new RegExp(`^${argument} is`));
  });
});
