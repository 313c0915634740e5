import { describe, expect, test } from "vitest";
import { exposureClimate } from "./exposure-climate.ts";
import type { LogRow } from "./log-row.ts";

const at = (text: string) => Date.parse(text);
/** Readings every hour: wet air for so many hours, then dry. */
const hourly = (from: string, wet: number, dry: number): LogRow[] =>
  Array.from({ length: wet + dry }, (_, hour) => ({
    atMs: at(from) + hour * 3_600_000,
    tempC: 10,
    rhPercent: hour < wet ? 90 : 50,
  }));
const span = { start: "2026-05-03", zone: "UTC", days: 3, untilMs: at("2026-05-06T00:00:00Z"), thicknessMm: 3 };

describe("the air since coupons hang", () => {
  test("hours by day, and what nobody measured is unknown", () => {
    const found = exposureClimate(hourly("2026-05-03T12:00:00Z", 20, 4), span);
    expect(found?.days.map(({ day, hours, wetHours, unknownHours }) => [day, hours, wetHours, unknownHours])).toEqual([
      [0, 24, 12, 12],
      [1, 24, 8, 12],
      [2, 24, 0, 24],
    ]);
    expect(found?.whole).toEqual({ hours: 72, wetHours: 20, dewHours: 0, dewNights: 0, unknownHours: 48 });
  });
  test("while coupons hang the last day ends now, and tomorrow is not unknown", () => {
    const found = exposureClimate(hourly("2026-05-03T00:00:00Z", 24, 12), {
      ...span,
      untilMs: at("2026-05-04T12:00:00Z"),
    });
    expect(found?.days.map(({ hours, unknownHours }) => [hours, unknownHours])).toEqual([
      [24, 0],
      [12, 0],
    ]);
  });
  test("nothing is unknown where every minute was read, though tenths of an hour do not add up in binary", () => {
    const rows = Array.from({ length: 720 }, (_, step) => ({
      atMs: at("2026-05-03T00:00:00Z") + step * 360_000,
      tempC: 10,
      rhPercent: 90,
    }));
    const found = exposureClimate(rows, { ...span, untilMs: at("2026-05-05T20:12:33.005Z") });
    expect(found?.days.map((day) => day.unknownHours)).toEqual([0, 0, 0]);
  });
  test("days are those of the place", () => {
    // Wet for the twelve hours before midnight in Tokyo, 15:00 UTC.
    const found = exposureClimate(hourly("2026-05-03T03:00:00Z", 12, 12), { ...span, zone: "Asia/Tokyo" });
    expect(found?.days.map((day) => day.wetHours)).toEqual([12, 0, 0]);
  });
  test("a warm damp front in the night: its dew is one night's, also past midnight", () => {
    const rows = hourly("2026-05-03T00:00:00Z", 0, 72).map((row, hour) =>
      hour >= 23 && hour <= 25 ? { ...row, tempC: 10 + 8 * (hour - 22), rhPercent: 95 } : row,
    );
    const found = exposureClimate(rows, span);
    expect(found?.dewNights.map((night) => night.day)).toEqual([0]);
    expect(found?.days.filter((day) => day.dewHours > 0).map((day) => day.day)).toEqual([0, 1]);
    expect(found?.dewNights[0]?.dewHours).toBeCloseTo(found?.whole.dewHours ?? 0, 9);
  });
  test.each([
    ["none", []],
    ["one: nobody knows how long it stood", hourly("2026-05-03T00:00:00Z", 1, 0)],
  ])("readings: %s", (_what, rows) => expect(exposureClimate(rows, span)).toBeNull());
  test("put out today, not an hour ago", () =>
    expect(
      exposureClimate(hourly("2026-05-01T00:00:00Z", 24, 24), { ...span, untilMs: at("2026-05-03T00:00:00Z") })?.whole,
    ).toMatchObject({ hours: 0, wetHours: 0, unknownHours: 0 }));
});
