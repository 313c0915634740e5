import { describe, expect, test } from "vitest";
import { dayBars, dayTicks, lookTicks, rustLanes } from "./days-strip-layout.ts";

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
  const span = (coupon: string, left: number, right: number | null) => ({ coupon, left, right });

  test("coupons that rusted in the same days share a mark; one that did not rust has none", () =>
    expect(
      rustLanes([span("3", 2, 4), span("14", 40, null), span("9", 2, 4)], 50, 500).map((one) => one.label),
    ).toEqual(["3, 9"]));
  test("marks that would lie over each other get lanes of their own", () => {
    const lanes = rustLanes([span("3", 2, 4), span("9", 1, 4)], 50, 500);
    expect(new Set(lanes.map((one) => one.lane)).size).toBe(2);
  });
  test("a whole rack rusted at once: numbers break into several marks and none is lost", () => {
    const all = Array.from({ length: 30 }, (_, at) => span(String(at + 1), 1, 2));
    const marks = rustLanes(all, 84, 640);
    expect(marks.flatMap((one) => one.coupons)).toEqual(all.map((one) => one.coupon));
    expect(marks).toHaveLength(4);
  });
  test("at the end of the strip the numbers stand before their mark", () => {
    const [last] = rustLanes(
      ["21", "22", "23"].map((coupon) => span(coupon, 45, 50)),
      50,
      500,
    );
    expect(last!.labelAt).toBeLessThan(last!.from);
  });
  test.each([
    ["a phone", 244],
    ["a desk", 700],
  ])("no number leaves the strip on %s, wherever its mark lies", (_where, plotPx) => {
    const spans = [1, 20, 42, 60, 83].flatMap((right) =>
      Array.from({ length: 12 }, (_, at) => span(String(right * 100 + at), Math.max(0, right - 7), right)),
    );
    const marks = rustLanes(spans, 84, plotPx);
    expect(marks.flatMap((one) => one.coupons).sort()).toEqual(spans.map((one) => one.coupon).sort());
    expect(Math.min(...marks.map((one) => one.labelAt))).toBeGreaterThanOrEqual(0);
    // Seven px a letter, forty px right of the last day.
    expect(Math.max(...marks.map((one) => one.labelAt + one.label.length * 7))).toBeLessThanOrEqual(plotPx + 40);
  });
  test("rust over the whole strip leaves room for one number at a time, at its end", () => {
    const marks = rustLanes([span("11", 0, 84), span("12", 0, 84)], 84, 244);
    expect(marks.map((one) => [one.label, one.labelAt])).toEqual([
      ["11", 247],
      ["12", 247],
    ]);
  });
  test("an interval known exactly still shows", () => {
    const [one] = rustLanes([span("1", 5, 5)], 10, 100);
    expect(one!.to).toBeGreaterThan(one!.from);
  });
  test("none rusted: an empty band", () => expect(rustLanes([span("1", 5, null)], 10, 100)).toEqual([]));
});

describe("a day's bars", () => {
  test.each([
    [
      "wet for six hours, unknown for twelve",
      { hours: 24, wetHours: 6, unknownHours: 12 },
      { wetPx: 6, unknownPx: 12 },
    ],
    ["today, six hours old and wet for three", { hours: 6, wetHours: 3, unknownHours: 0 }, { wetPx: 12, unknownPx: 0 }],
    ["put out just now", { hours: 0, wetHours: 0, unknownHours: 0 }, { wetPx: 0, unknownPx: 0 }],
  ])("%s", (_what, day, bars) => expect(dayBars(day, 24)).toEqual(bars));
});
