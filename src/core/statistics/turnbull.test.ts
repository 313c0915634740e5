import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { InspectionInterval } from "./inspection-interval.ts";
import { turnbull, turnbullEstimate } from "./turnbull.ts";

const between = (leftDays: number, rightDays: number | null): InspectionInterval => ({ leftDays, rightDays });
const support = (observations: InspectionInterval[]) =>
  turnbull({ observations, atDays: [0] }).support.map(({ leftDays, rightDays, mass }) => [leftDays, rightDays, mass]);

/** Largest miss of the optimality conditions: n in each cell with mass, at most n elsewhere. The likelihood is concave, so this proves the maximum. */
function optimalityMiss(observations: InspectionInterval[]): number {
  const { cells, spans, which } = turnbullEstimate(observations);
  const derivative = cells.map(() => 0);
  for (const one of which) {
    const { first, last } = spans[one]!;
    const inside = cells.slice(first, last + 1).reduce((sum, cell) => sum + cell.mass, 0);
    for (let at = first; at <= last; at++) derivative[at]! += 1 / inside;
  }
  const n = observations.length;
  return Math.max(...cells.map((cell, at) => (cell.mass > 0 ? Math.abs(derivative[at]! - n) : derivative[at]! - n)));
}

describe("Turnbull estimate, cases by hand", () => {
  test.each([
    ["one coupon", [between(14, 21)], [[14, 21, 1]]],
    ["none rusted: the mass lies after the last look of all", [between(28, null), between(42, null)], [[42, null, 1]]],
    ["all rusted by the first look", [between(0, 7), between(0, 5)], [[0, 5, 1]]],
    [
      "touching looks do not overlap",
      [between(7, 14), between(14, 21)],
      [
        [7, 14, 0.5],
        [14, 21, 0.5],
      ],
    ],
    ["an exact day belongs to the look that ends there", [between(7, 14), between(14, 14)], [[14, 14, 1]]],
    [
      "an exact day is not in the stretch that starts there",
      [between(14, 14), between(14, 21)],
      [
        [14, 14, 0.5],
        [14, 21, 0.5],
      ],
    ],
    [
      "taken away on a day, at risk on that day",
      [between(14, null), between(14, 14)],
      [
        [14, 14, 0.5],
        [14, null, 0.5],
      ],
    ],
    // The middle cells (12, 15] and (18, 20] have derivative n and mass 0: the hard case for any stopping rule.
    [
      "borderline cells",
      [between(0, 10), between(5, 15), between(8, 20), between(12, 25), between(18, null), between(22, null)],
      [
        [8, 10, 0.5],
        [22, 25, 0.5],
      ],
    ],
  ])("%s", (_, observations, expected) => {
    const found = support(observations);
    expect(found.map(([l, r]) => [l, r])).toEqual(expected.map(([l, r]) => [l, r]));
    for (const [at, [, , mass]] of expected.entries()) expect(found[at]![2]).toBeCloseTo(mass!, 7);
    expect(optimalityMiss(observations)).toBeLessThan(1e-6);
  });

  test("inside a cell nothing is known: the upper value waits for its end, the lower one falls at once", () => {
    const observations = [between(7, 14), between(14, 21), between(14, 21), between(42, null)];
    const { survivalUpper, survivalLower } = turnbull({ observations, atDays: [7, 10, 14, 42, 60] });
    expect(survivalUpper).toEqual([1, 1, 0.75, 0.25, 0.25]);
    expect(survivalLower).toEqual([1, 0.75, 0.75, 0.25, 0]);
  });
});

describe("Turnbull estimate, laws", () => {
  const looks = fc.integer({ min: 0, max: 9 });
  const coupon = fc.tuple(looks, looks, fc.boolean()).map(([a, b, clean]) => {
    const [left, right] = [Math.min(a, b), Math.max(a, b)];
    return clean ? between(left, null) : between(left, right === 0 ? 1 : right);
  });
  const coupons = fc.array(coupon, { minLength: 1, maxLength: 24 });

  test("the optimality conditions hold for whatever looks", () => {
    fc.assert(
      fc.property(coupons, (observations) => {
        expect(optimalityMiss(observations)).toBeLessThan(1e-8 * observations.length);
      }),
      { numRuns: 1500 },
    );
  });

  test("the masses add up to 1, and the order of the coupons does not matter", () => {
    fc.assert(
      fc.property(coupons, (observations) => {
        const { cells, logLikelihood } = turnbullEstimate(observations);
        expect(cells.reduce((sum, cell) => sum + cell.mass, 0)).toBeCloseTo(1, 12);
        const turned = turnbullEstimate([...observations].reverse());
        expect(turned.logLikelihood).toBeCloseTo(logLikelihood, 8);
        for (const [at, cell] of cells.entries()) expect(turned.cells[at]!.mass).toBeCloseTo(cell.mass, 9);
      }),
    );
  });

  test("days or hours, the same masses", () => {
    fc.assert(
      fc.property(coupons, (observations) => {
        const hours = observations.map(({ leftDays: l, rightDays: r }) => between(24 * l, r === null ? null : 24 * r));
        expect(turnbullEstimate(hours).cells.map((cell) => cell.mass)).toEqual(
          turnbullEstimate(observations).cells.map((cell) => cell.mass),
        );
      }),
    );
  });
});

describe("Turnbull estimate refuses", () => {
  test.each([
    [
      "ends in the wrong order",
      [between(14, 7)],
      /^observations\[0\]\.rightDays is 7; expected not before leftDays 14/,
    ],
    ["no coupon", [], /^observations is \[\]; expected a list/],
    ["a time before the start", [between(-1, 7)], /^observations\[0\]\.leftDays is -1/],
    ["rust at time 0", [between(0, 0)], /^observations\[0\]\.rightDays is 0/],
    ["no number", [between(Number.NaN, 7)], /^observations\[0\]\.leftDays is NaN/],
  ])("%s", (_, observations, message) => {
    expect(() => turnbull({ observations, atDays: [7] })).toThrow(message);
  });
});
