import { describe, expect, test } from "vitest";
import { climateDays, dayTicks, lookTicks, rustLanes } from "./days-strip-layout.ts";

describe("the axis of days", () => {
  test.each([
    [14, 600, [0, 1, 2]],
    [84, 600, [0, 7, 14]],
    [84, 300, [0, 14, 28]],
    [365, 300, [0, 56, 112]],
    [0, 300, [0]],
  ])("%d days on %d px begin %j", (days, px, begin) => expect(dayTicks(days, px).slice(0, 3)).toEqual(begin));
});

describe("looks as ticks", () => {
  test("planned days that were looked at are not ahead any more", () =>
    expect(lookTicks([{ day: 1 }, { day: 1 }, { day: 4 }], [1, 2, 4, 7])).toEqual({
      done: [
        { day: 1, coupons: 2 },
        { day: 4, coupons: 1 },
      ],
      ahead: [2, 7],
    }));
  test("no look yet", () => expect(lookTicks([], [7, 1])).toEqual({ done: [], ahead: [1, 7] }));
});

describe("first rust on the same axis", () => {
  test("coupons that rusted in the same days lie in lanes of their own", () => {
    const lanes = rustLanes(
      [
        { coupon: "3", left: 2, right: 4 },
        { coupon: "9", left: 2, right: 4 },
        { coupon: "14", left: 40, right: null },
      ],
      50,
      500,
    );
    expect(lanes.map((one) => one.coupon)).toEqual(["3", "9"]);
    expect(new Set(lanes.map((one) => one.lane)).size).toBe(2);
  });
  test("an interval known exactly still shows", () => {
    const [one] = rustLanes([{ coupon: "1", left: 5, right: 5 }], 10, 100);
    expect(one!.to).toBeGreaterThan(one!.from);
  });
  test("none rusted: an empty band", () =>
    expect(rustLanes([{ coupon: "1", left: 5, right: null }], 10, 100)).toEqual([]));
});

describe("the weather of each day", () => {
  test("readings of one day become one row; a day without any has none", () =>
    expect(
      climateDays(
        [
          { at: "2026-03-01T06:00:00Z", tempC: 2, rhPercent: 90 },
          { at: "2026-03-01T14:00:00Z", tempC: 10, rhPercent: 70 },
          { at: "2026-03-03T06:00:00Z", tempC: 4, rhPercent: 80 },
        ],
        "2026-03-01",
      ),
    ).toEqual([
      { day: 0, rhPercent: 80, lowC: 2, highC: 10 },
      { day: 2, rhPercent: 80, lowC: 4, highC: 4 },
    ]));
});
