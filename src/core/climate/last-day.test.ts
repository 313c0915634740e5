import { describe, expect, test } from "vitest";
import { lastDay } from "./last-day.ts";
import type { LogRow } from "./log-row.ts";

const at = (text: string) => Date.parse(text);
const noon = at("2026-05-03T12:00:00Z");
/** A reading every hour from then on, wet or dry. */
const hourly = (from: string, wet: readonly boolean[]): LogRow[] =>
  wet.map((is, hour) => ({ atMs: at(from) + hour * 3_600_000, tempC: 10, rhPercent: is ? 95 : 50 }));
const wetFor = (hours: number) => Array.from({ length: hours }, () => true);
const dryFor = (hours: number) => Array.from({ length: hours }, () => false);

describe("the last 24 hours of a site", () => {
  test("its wet hours up to now, one by one, the oldest first", () => {
    // 48 h up to 12:00; of the last 24 the first six were wet.
    const day = lastDay(hourly("2026-05-01T12:00:00Z", [...dryFor(24), ...wetFor(6), ...dryFor(18)]), noon)!;
    expect(day).toMatchObject({ endsMs: noon, endsNow: true, wetHours: 6, unknownHours: 0 });
    expect(day.hours.map(({ wetHours }) => wetHours)).toEqual([...Array(6).fill(1), ...Array(18).fill(0)]);
  });

  test("what the logger has not sent yet is unknown, not dry", () => {
    // The last reading stands for its own hour, until 09:00.
    const day = lastDay(hourly("2026-05-02T00:00:00Z", wetFor(33)), noon)!;
    expect(day).toMatchObject({ endsNow: true, wetHours: 21, unknownHours: 3 });
    expect(day.hours.slice(-4).map(({ unknownHours }) => unknownHours)).toEqual([0, 1, 1, 1]);
  });

  test("a log that ended longer than a day ago shows its own last day", () => {
    const day = lastDay(hourly("2026-04-01T00:00:00Z", [...dryFor(20), ...wetFor(10)]), noon)!;
    expect(day).toMatchObject({ endsMs: at("2026-04-02T06:00:00Z"), endsNow: false, wetHours: 10, unknownHours: 0 });
  });

  test("a log that began this morning: before it nobody knows", () => {
    expect(lastDay(hourly("2026-05-03T08:00:00Z", wetFor(4)), noon)).toMatchObject({ wetHours: 4, unknownHours: 20 });
  });

  test.each([
    ["no reading", 0],
    ["one, which says nothing of how long it stood", 1],
  ])("%s: no day", (_what, readings) => {
    expect(lastDay(hourly("2026-05-03T08:00:00Z", wetFor(readings)), noon)).toBeNull();
  });
});
