import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Corners, cornerFault, sidesLookSwapped, startCorners, turned, withCorner } from "./corner-geometry.ts";

const coupon = { lengthMm: 100, widthMm: 60 };
const square: Corners = [
  [100, 100],
  [300, 100],
  [300, 300],
  [100, 300],
];

describe("corners to start with", () => {
  test.each([
    ["a wide picture", { widthPx: 4000, heightPx: 3000 }],
    ["an upright picture", { widthPx: 3000, heightPx: 4000 }],
    ["a narrow strip", { widthPx: 4000, heightPx: 300 }],
  ])("%s: inside, in the coupon's shape, measurable", (_name, picture) => {
    const corners = startCorners(picture, coupon);
    expect(cornerFault(corners)).toBeNull();
    expect((corners[1][0] - corners[0][0]) / (corners[3][1] - corners[0][1])).toBeCloseTo(100 / 60, 9);
    for (const [x, y] of corners) {
      expect(x).toBeGreaterThan(0.1 * picture.widthPx);
      expect(y).toBeLessThan(0.9 * picture.heightPx);
    }
  });
});

describe("faults", () => {
  const [a, b, c, d] = square;
  test.each<[string, Corners, ReturnType<typeof cornerFault>]>([
    ["clockwise from the top left", square, null],
    ["turned by a quarter", turned(square), null],
    ["anticlockwise", [b, a, d, c], "mirrored"],
    ["two neighbours exchanged", [b, a, c, d], "crossed"],
    ["dented", [a, b, [150, 150], d], "crossed"],
    ["two on one spot", [a, a, c, d], "too small"],
  ])("%s", (_name, corners, fault) => expect(cornerFault(corners)).toBe(fault));
});

test("four quarter turns change nothing", () => expect(turned(turned(turned(turned(square))))).toEqual(square));

test("a corner never leaves the picture", () => {
  const picture = { widthPx: 400, heightPx: 400 };
  const far = fc.tuple(fc.double({ noNaN: true }), fc.double({ noNaN: true }));
  fc.assert(
    fc.property(fc.nat({ max: 3 }), far, (at, [x, y]) => {
      const corner = withCorner(square, at, [x, y], picture)[at]!;
      return corner.every((one) => one >= 0 && one <= 400);
    }),
  );
});

describe("sides exchanged", () => {
  const wide: Corners = [
    [0, 0],
    [500, 0],
    [500, 300],
    [0, 300],
  ];
  test.each<[string, Corners, typeof coupon, boolean]>([
    ["as it should be", wide, coupon, false],
    ["the number reads along the short side", turned(wide), coupon, true],
    ["a square coupon cannot tell", wide, { lengthMm: 80, widthMm: 80 }, false],
    ["seen at a slant, in between", square, coupon, false],
  ])("%s", (_name, corners, size, swapped) => expect(sidesLookSwapped(corners, size)).toBe(swapped));
});
