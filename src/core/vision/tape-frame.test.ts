import { expect, test } from "vitest";
import type { CornersPx } from "./coupon-plane.ts";
import { mapped } from "./homography.ts";
import { cutToPicture, extentOf, tapeFrame } from "./tape-frame.ts";

const corners: CornersPx = [
  [20, 20],
  [120, 20],
  [120, 120],
  [20, 120],
];
const size = { lengthMm: 10, widthMm: 10 };
/** Brighter by 1 a pixel to the right, the same from top to bottom. */
const ramp = {
  widthPx: 140,
  heightPx: 140,
  rgb: Uint8Array.from({ length: 140 * 140 * 3 }, (_, at) => Math.floor(at / 3) % 140),
};

test("a margin goes round the region on each side", () =>
  expect(extentOf({ lengthMm: 10, widthMm: 6 }, 4)).toEqual({ leftMm: -4, topMm: -4, widthMm: 18, heightMm: 14 }));

test.each([
  // mm of the cut, px of the picture: 10 px a mm from 20, 20
  [
    [0, 0],
    [20, 20],
  ],
  [
    [10, 0],
    [120, 20],
  ],
  [
    [5, 2.5],
    [70, 45],
  ],
] as const)("%j mm lies at %j px", (mm, px) => {
  const [x, y] = mapped(cutToPicture(ramp, corners, size, "before.cornersPx"), mm);
  expect(x).toBeCloseTo(px[0], 6);
  expect(y).toBeCloseTo(px[1], 6);
});

test("a cut smaller than 8 px a mm is refused by its name", () =>
  expect(() => cutToPicture(ramp, corners, { lengthMm: 20, widthMm: 20 }, "after.cornersPx")).toThrow(
    /^after.cornersPx is "5.0 px per mm of the cut"; expected at least 8 px per mm/,
  ));

test("sampled square on at the picture's own scale, each pixel is what lay there; beyond the picture its rim goes on", () => {
  const toPicture = cutToPicture(ramp, corners, size, "before.cornersPx");
  const { image } = tapeFrame(ramp, toPicture, extentOf(size, 4), 10);
  expect([image.widthPx, image.heightPx]).toEqual([180, 180]);
  const at = (x: number, y: number) => image.rgb[(y * 180 + x) * 3];
  // 4 mm of margin begin 40 px left of the region, 20 px outside the picture.
  expect(at(10, 90)).toBe(0);
  expect(at(40, 90)).toBe(20);
  expect(at(90, 90)).toBe(70);
  expect(at(175, 90)).toBe(139);
});
