import { expect, test } from "vitest";
import { printError } from "./print-error.ts";

const planned = { lengthMm: 100, widthMm: 60 };
const read = ([lengthMm, widthMm]: readonly [number, number]) => printError({ lengthMm, widthMm }, planned);

test.each([
  // measured      what it is                                                   print        off by %
  [[104.22, 62.53], "a rendered card printed at 96 %", "too small", 4],
  [[105.59, 63.19], "a rendered card printed at 95 %, one side a little off", "too small", 5.2],
  [[101.3, 60.8], "a rendered card printed at 99 %", "too small", 1.3],
  [[97.62, 58.5], "a rendered card printed at 103 %, its sides' outer lines missed", "too large", 2.5],
] as const)("a coupon of 100 by 60 mm reads %j mm: %s, both sides alike", (measured, _what, print, percent) => {
  const found = read(measured)!;
  expect(found).toMatchObject({ print, isAlike: true });
  expect((found.leastPercent + found.mostPercent) / 2).toBeCloseTo(percent, 0);
});

test.each([
  // measured     what it is                                                              print        off by, least and most, %
  [[102.2, 61.9], "printed at 97 %, the length found on a line nearer to the plan", "too small", 2.2, 3.1],
  [[102, 62], "a shadow of 2 mm beside both sides, or such a card", "too small", 2, 3.2],
  [[101.66, 60.47], "printed at 97 %, the width hardly off", "too small", 0.8, 1.6],
  [[97.98, 59.2], "printed at 104 %, both sides found short of it", "too large", 1.4, 2.1],
] as const)("%j mm: %s; the sides do not agree", (measured, _what, print, least, most) => {
  const found = read(measured)!;
  expect(found).toMatchObject({ print, isAlike: false });
  expect(found.leastPercent).toBeCloseTo(least, 1);
  expect(found.mostPercent).toBeCloseTo(most, 1);
});

test.each([
  [[101.5, 60], "a shadow beside one side"],
  [[100.3, 60.2], "a coupon cut by hand"],
  [[102.2, 59], "one side too long, the other too short"],
  [[103, 60.25], "a shadow beside one side of a coupon cut by hand"],
  [[115, 69], "another coupon"],
  [[85, 51], "another coupon, smaller"],
  [[100, 60], "as planned"],
] as const)("%j mm: %s; the print is not blamed", (measured, _what) => {
  expect(read(measured)).toBeNull();
});
