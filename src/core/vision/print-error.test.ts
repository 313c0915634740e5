import { expect, test } from "vitest";
import { printedTooSmallPercent } from "./print-error.ts";

test.each([
  // measured      what it is                                                    too small by %
  [[104.22, 62.53], "a rendered card printed at 96 %", 4],
  [[105.59, 63.19], "a rendered card printed at 95 %, one side a little off", 5.2],
  [[101.3, 60.8], "a rendered card printed at 99 %", 1.3],
  [[102, 62], "a shadow of 2 mm beside both sides: no share", null],
  [[101.5, 60], "a shadow beside one side", null],
  [[100.3, 60.2], "a coupon cut by hand", null],
  [[98, 58.8], "printed larger, which fitting to a page does not do", null],
])("a coupon of 100 by 60 mm reads %j mm: %s", ([lengthMm, widthMm], _what, percent) => {
  const found = printedTooSmallPercent({ lengthMm: lengthMm!, widthMm: widthMm! }, { lengthMm: 100, widthMm: 60 });
  if (percent === null) expect(found).toBeNull();
  else expect(found).toBeCloseTo(percent, 0);
});
