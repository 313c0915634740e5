import { expect, test } from "vitest";
import type { CornersPx } from "./coupon-plane.ts";
import { shrinkBeside, workingShrink } from "./working-size.ts";

const square = (sidePx: number): CornersPx => [
  [0, 0],
  [sidePx, 0],
  [sidePx, sidePx],
  [0, sidePx],
];

test.each([
  // longer side, px   coupon of 100 mm, px across   decoded at one part in
  [4000, 3400, 4], // 34 px per mm: a quarter leaves 8.5
  [4000, 3500, 5], // a fifth leaves just 7
  [4000, 2799, 3], // 27.99: a quarter would leave a hair less than 7
  [4000, 2099, 2],
  [4000, 1400, 2],
  [4000, 1399, 1],
  [1600, 500, 1],
  [12000, 6300, 9],
  [4000, null, 3], // by the card
  [3899, null, 2],
  [2599, null, 1],
  [8064, null, 6],
  [16000, null, 9],
  [1600, null, 1],
])("%i px, coupon over %s px: one part in %i", (longerPx, couponPx, shrink) => {
  const photo = { widthPx: longerPx, heightPx: 0.75 * longerPx };
  const corners = couponPx === null ? null : square(couponPx);
  expect(workingShrink(photo, { lengthMm: 100, widthMm: 100 }, corners)).toBe(shrink);
});

test.each([
  [1600, 1],
  [3799, 1],
  [4000, 2],
  [5699, 2],
  [8064, 4],
])("%i px: beside the search decoded at one part in %i", (longerPx, shrink) => {
  expect(shrinkBeside({ widthPx: longerPx, heightPx: 0.75 * longerPx })).toBe(shrink);
});
