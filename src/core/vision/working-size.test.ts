import { expect, test } from "vitest";
import type { CornersPx } from "./coupon-plane.ts";
import { workingShrink } from "./working-size.ts";

const square = (sidePx: number): CornersPx => [
  [0, 0],
  [sidePx, 0],
  [sidePx, sidePx],
  [0, sidePx],
];

test.each([
  // longer side, px   coupon of 100 mm, px across   decoded at one part in
  [4000, 3400, 4], // 34 px per mm: a quarter leaves 8.5
  [4000, 2800, 4], // 28: a quarter leaves just 7
  [4000, 2799, 2], // a quarter would leave a hair less than 7
  [4000, 1400, 2],
  [4000, 1399, 1],
  [1600, 500, 1],
  [12000, 6300, 8],
  [4000, null, 2], // by the card
  [2600, null, 2],
  [2599, null, 1],
  [8064, null, 4],
  [16000, null, 8],
  [1600, null, 1],
])("%i px, coupon over %s px: one part in %i", (longerPx, couponPx, shrink) => {
  const photo = { widthPx: longerPx, heightPx: 0.75 * longerPx };
  const corners = couponPx === null ? null : square(couponPx);
  expect(workingShrink(photo, { lengthMm: 100, widthMm: 100 }, corners)).toBe(shrink);
});
