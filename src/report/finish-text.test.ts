import { expect, test } from "vitest";
import { finishText } from "./finish-text.ts";

const size = { lengthMm: 100, widthMm: 60 };
const blotch = (xMm: number, yMm: number, lighter = true) => ({ xMm, yMm, areaMm2: 100, deltaE: 5, lighter });

test.each([
  [{ lStar: 12, aStar: 0, bStar: 1 }, 0.6, [], "black, L* 12 ± 0.6, even"],
  [{ lStar: 28, aStar: 0, bStar: 0 }, 2, [blotch(50, 30)], "charcoal, L* 28 ± 2, one lighter patch in the middle"],
  [
    { lStar: 40, aStar: 2, bStar: 6 },
    3.4,
    [blotch(90, 5, false)],
    "brownish dark grey, L* 40 ± 3, one darker patch at the top right",
  ],
  [
    { lStar: 70, aStar: 0, bStar: -5 },
    1,
    [blotch(5, 30), blotch(90, 55)],
    "bluish light grey, L* 70 ± 1, 2 patches that differ, the largest lighter at the left",
  ],
  [{ lStar: 45, aStar: 20, bStar: 25 }, 1, [], "strongly brownish mid grey, L* 45 ± 1, even"],
])("%j reads %s", (lab, lightnessSd, blotches, words) => {
  expect(finishText({ lab, lightnessSd, blotches: [...blotches] }, size)).toBe(words);
});
