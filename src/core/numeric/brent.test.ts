import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brentMinimum, brentRoot } from "./brent.ts";

describe("Brent's root", () => {
  test.each([
    // function                                   from to   root               why
    [(x: number) => x * x - 2, 0, 2, Math.SQRT2, "by hand"],
    [(x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607, "the fixed point of the cosine"],
    [(x: number) => (x - 3) ** 9, 0, 5, 3, "flat at the root"],
    [(x: number) => Math.exp(x) - 1e-200, -1000, 0, Math.log(1e-200), "steep and tiny"],
  ])("%s between %d and %d is %d (%s)", (f, from, to, root) => {
    expect(brentRoot(f, from, to)).toBeCloseTo(root, 10);
  });

  test("an end that is the root is taken", () => {
    expect(brentRoot((x) => x, 0, 5)).toBe(0);
  });

  test("ends of one sign are refused", () => {
    expect(() => brentRoot((x) => x * x + 1, -1, 1)).toThrow(/^to is 1; expected an end with the other sign/);
  });

  test("finds the root of any rising line and cubic", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0.01, max: 9, noNaN: true }),
        (root, slope) => {
          const found = brentRoot((x) => slope * (x - root) + (x - root) ** 3, -100, 120);
          expect(Math.abs(found - root)).toBeLessThan(1e-9 * Math.max(1, Math.abs(root)));
        },
      ),
    );
  });
});

describe("Brent's minimum", () => {
  test.each([
    [(x: number) => (x - 2) ** 2 + 1, -5, 7, 2, 1],
    [(x: number) => Math.abs(x + 0.25), -1, 1, -0.25, 0],
    [(x: number) => -Math.sin(x), 0, 3, Math.PI / 2, -1],
    [(x: number) => x, 1, 2, 1, 1], // the lowest point is an end
  ])("%s between %d and %d lies at %d", (f, from, to, x, value) => {
    const lowest = brentMinimum(f, from, to);
    expect(lowest.x).toBeCloseTo(x, 6);
    expect(lowest.value).toBeCloseTo(value, 6);
  });
});
