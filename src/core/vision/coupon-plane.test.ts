import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type CornersPx, perspectiveOf, pxPerMmInPicture } from "./coupon-plane.ts";

const at = (corners: CornersPx, u: number, v: number) => {
  const p = perspectiveOf(corners);
  const w = p.g * u + p.h * v + 1;
  return [(p.a * u + p.b * v + p.c) / w, (p.d * u + p.e * v + p.f) / w];
};

/** By hand: a trapezium seen from below. Its diagonals (0,0)-(60,40) and (100,0)-(40,40) meet at (50, 33.333). */
const tilted: CornersPx = [
  [0, 0],
  [100, 0],
  [60, 40],
  [40, 40],
];

describe("perspective of a coupon", () => {
  test("the coupon's middle lies where the diagonals of the picture cross", () => {
    const [x, y] = at(tilted, 0.5, 0.5);
    expect(x).toBeCloseTo(50, 9);
    expect(y).toBeCloseTo(100 / 3, 9);
  });

  test("corners are carried to corners, however the coupon lies", () => {
    const jitter = fc.double({ min: -12, max: 12, noNaN: true });
    const turned = fc.tuple(
      fc.double({ min: 0, max: 6.28, noNaN: true }),
      fc.array(jitter, { minLength: 8, maxLength: 8 }),
    );
    fc.assert(
      fc.property(turned, ([angle, j]) => {
        const corner = (i: number, x: number, y: number) =>
          [
            x * Math.cos(angle) - y * Math.sin(angle) + j[2 * i]!,
            x * Math.sin(angle) + y * Math.cos(angle) + j[2 * i + 1]!,
          ] as const;
        const corners: CornersPx = [corner(0, -60, -40), corner(1, 60, -40), corner(2, 60, 40), corner(3, -60, 40)];
        const found = [at(corners, 0, 0), at(corners, 1, 0), at(corners, 1, 1), at(corners, 0, 1)].flat();
        for (const [i, value] of corners.flat().entries()) expect(found[i]).toBeCloseTo(value, 6);
      }),
    );
  });

  test("scale is area over area: 200 x 100 px for 100 x 50 mm is 2 px per mm", () => {
    const corners: CornersPx = [
      [10, 10],
      [210, 10],
      [210, 110],
      [10, 110],
    ];
    expect(pxPerMmInPicture(corners, { lengthMm: 100, widthMm: 50 })).toBeCloseTo(2, 12);
  });

  const [a, b, c, d] = tilted;
  test.each([
    ["anticlockwise", [a, d, c, b], /clockwise order/],
    ["crossed over", [a, c, b, d], /in order round/],
    ["in one line", [a, [50, 0], b, d], /in line with/],
    ["one point four times", [a, a, a, a], /four corners/],
    ["not a number", [a, b, [Number.NaN, 1], d], /cornersPx\[2\]/],
  ] as [string, CornersPx, RegExp][])("refuses corners that are %s", (_, corners, message) => {
    expect(() => perspectiveOf(corners)).toThrow(message);
  });
});
