import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planeAbove, tiltDeg } from "./card-pose.ts";
import { homographyOf, inverted, mapped, type Point, stretchAt } from "./homography.ts";

const square: Point[] = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
];

describe("a map between two planes", () => {
  test("by hand: twice as large and shifted", () => {
    const h = homographyOf(
      square,
      square.map(([x, y]): Point => [2 * x + 5, 2 * y - 3]),
    );
    expect(mapped(h, [10, 20])[0]).toBeCloseTo(25, 9);
    expect(mapped(h, [10, 20])[1]).toBeCloseTo(37, 9);
    expect(stretchAt(h, [50, 50]).most).toBeCloseTo(2, 9);
    expect(stretchAt(h, [50, 50]).least).toBeCloseTo(2, 9);
  });

  test("four corners of any seen square are met exactly, and the way back leads back", () => {
    const shift = fc.double({ min: -15, max: 15, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(shift, shift), { minLength: 4, maxLength: 4 }), (shifts) => {
        const seen = square.map(([x, y], at): Point => [x + shifts[at]![0], y + shifts[at]![1]]);
        const h = homographyOf(square, seen);
        const back = inverted(h);
        for (const [at, corner] of square.entries()) {
          const [x, y] = mapped(h, corner);
          expect(Math.hypot(x - seen[at]![0], y - seen[at]![1])).toBeLessThan(1e-6);
          const [u, v] = mapped(back, [x, y]);
          expect(Math.hypot(u - corner[0], v - corner[1])).toBeLessThan(1e-6);
        }
      }),
    );
  });

  test("with more than four pairs, one bad point of sixteen moves the rest by a fraction of its error", () => {
    const points = [0, 1, 2, 3].flatMap((row) => [0, 1, 2, 3].map((column): Point => [column * 30, row * 30]));
    const h = homographyOf(
      points,
      points.map(([x, y], at): Point => (at === 5 ? [x + 1, y] : [x, y])),
    );
    expect(Math.abs(mapped(h, [60, 60])[0] - 60)).toBeLessThan(0.35);
  });

  test("refuses three pairs and points on one line", () => {
    expect(() => homographyOf(square.slice(1), square.slice(1))).toThrow(/^from is "3 and 3 points"/);
    const line = [0, 1, 2, 3].map((at): Point => [at, at]);
    expect(() => homographyOf(line, line)).toThrow(/singular/);
  });
});

describe("a plane above the card", () => {
  // A camera 300 mm above the card, focal length 600 px: 2 px per mm on the card, 600 / 290 on what lies 10 mm higher.
  const camera = { widthPx: 800, heightPx: 600, focalPx: 600 };
  const seen = (mm: Point, awayMm: number): Point => [400 + (600 * mm[0]) / awayMm, 300 + (600 * mm[1]) / awayMm];
  const card = homographyOf(
    square,
    square.map((mm) => seen(mm, 300)),
  );

  test.each([0, 3, 10])("of %d mm is seen as much larger as it is nearer", (heightMm) => {
    const h = planeAbove(card, camera, heightMm);
    for (const mm of square) {
      const [x, y] = seen(mm, 300 - heightMm);
      expect(Math.hypot(mapped(h, mm)[0] - x, mapped(h, mm)[1] - y)).toBeLessThan(1e-6);
    }
  });

  test("seen straight from above, the tilt is none", () => expect(tiltDeg(card, [0, 0])).toBeLessThan(0.01));
});
