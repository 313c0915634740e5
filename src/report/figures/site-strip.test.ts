import { describe, expect, test } from "vitest";
import { unknownAir } from "./site-strip.ts";

describe("the air of a site without a log", () => {
  test.each([
    // days of the strip, today, days that nobody knows: those to come are not unknown, they are not yet
    [28, 6, 7],
    [28, 0, 1],
    [6.5, null, 7],
    [0, null, 0],
  ])("a strip of %d days on day %s: %d days", (days, nowDay, unknown) => {
    const air = unknownAir({ days, nowDay });
    expect(air.days.map((one) => one.day)).toEqual(Array.from({ length: unknown }, (_, day) => day));
    expect(air.days.every((one) => one.unknownHours === 24 && one.wetHours === 0)).toBe(true);
    expect(air.dewNights).toEqual([]);
  });
});
