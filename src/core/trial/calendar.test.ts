import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dateAfter, daysBetween, isoDate } from "./calendar.ts";

// The leap rule of ISO 8601's (Gregorian) calendar: every fourth year, but of the full centuries only every fourth.
const noSuchDay = ["2026-02-29", "1900-02-29", "2026-02-30", "2026-04-31", "2026-13-01", "2026-00-10", "2026-1-01", ""];

describe("days of the calendar", () => {
  test.each([
    // from        to            days  counted by hand
    ["2026-05-03", "2026-05-03", 0],
    ["2024-02-28", "2024-03-01", 2], // a leap year
    ["2026-02-28", "2026-03-01", 1],
    ["2000-02-28", "2000-03-01", 2], // a full century that is one
    ["1900-02-28", "1900-03-01", 1], // one that is none
    ["2025-12-31", "2026-01-01", 1],
    ["2026-03-28", "2026-03-30", 2], // clocks go forward in between: a date has no hours
    ["2026-05-10", "2026-05-03", -7],
  ])("from %s to %s are %d days, and they lead there", (from, to, days) => {
    expect(daysBetween(from, to)).toBe(days);
    expect(dateAfter(from, days)).toBe(to);
  });

  test("days that were counted lead back, over centuries", () => {
    fc.assert(
      fc.property(fc.integer({ min: -200_000, max: 200_000 }), (days) => {
        expect(daysBetween("2026-05-03", dateAfter("2026-05-03", days))).toBe(days);
      }),
    );
  });

  test.each(noSuchDay)("%j is refused by name on either side", (date) => {
    expect(() => daysBetween(date, "2026-05-03")).toThrow(/^from is .* expected a date/);
    expect(() => daysBetween("2026-05-03", date)).toThrow(/^date is .* expected a date/);
    expect(() => dateAfter(date, 1)).toThrow(/^from is .* expected a date/);
  });
});

test.each([
  [{ year: 2024, month: 2, day: 29 }, "2024-02-29"],
  [{ year: 2026, month: 12, day: 5 }, "2026-12-05"],
  [{ year: 2026, month: 2, day: 29 }, null],
  [{ year: 2026, month: 4, day: 31 }, null],
  [{ year: 2026, month: 0, day: 1 }, null],
  // A year of two digits is not one of the last century.
  [{ year: 26, month: 5, day: 3 }, null],
])("%j is %j", (parts, date) => expect(isoDate(parts)).toBe(date));
