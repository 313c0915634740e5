import { expect, test } from "vitest";
import { midwaySkewMs } from "./midway-skew.ts";

test.each([
  // asked   shop's   heard    skew
  [1000, 1100, 1200, 0, "the same clock, 200 ms there and back"],
  [1000, 301_100, 1200, 300_000, "five minutes behind"],
  [601_000, 1100, 601_200, -600_000, "ten minutes ahead"],
])("asked at %d, answered at %d, heard at %d: off by %d ms (%s)", (askedAt, shopClock, heardAt, skew) =>
  expect(midwaySkewMs({ askedAt, shopClock, heardAt })).toBe(skew),
);
