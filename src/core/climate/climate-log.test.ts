import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { climateLog } from "./climate-log.ts";
import { climateSummary } from "./climate-summary.ts";
import type { LogRow } from "./log-row.ts";
import { steelCondensation } from "./steel-condensation.ts";
import { steelWarmUp } from "./steel-warm-up.ts";
import { dayBegins, instantsOfWallClock, wallClockMs } from "./zone-clock.ts";

const hourMs = 3_600_000;
const start = Date.parse("2026-03-01T00:00:00Z");
const row = (hour: number, tempC: number | null, rhPercent: number | null): LogRow => ({
  atMs: start + hour * hourMs,
  tempC,
  rhPercent,
});
const suspects = (rows: LogRow[]) =>
  climateLog(rows).suspects.map(({ fromMs, toMs, what }) => [what, (fromMs - start) / hourMs, (toMs - start) / hourMs]);

describe("a log put in order", () => {
  test("rows out of order, and a repeated time: the first of the two counts", () => {
    const log = climateLog([row(2, 5, 70), row(0, 3, 90), row(1, 4, 80), row(1, 4, 99)]);
    expect(log).toMatchObject({ readings: 4, duplicates: 1, intervalHours: 1, startMs: start });
    expect(log.series.map((one) => [one.elapsedHours, one.rhPercent])).toEqual([
      [0, 90],
      [1, 80],
      [2, 70],
    ]);
    expect(suspects([row(0, 3, 90), row(1, 4, 80), row(1, 4, 99)])).toEqual([["conflict", 1, 1]]);
  });
  test("a repeat that says the same is no conflict", () =>
    expect(suspects([row(0, 3, 90), row(1, 4, 80), row(1, 4, 80)])).toEqual([]));
  test("the interval is the median step: two holes do not stretch it", () =>
    expect(climateLog([0, 1, 2, 3, 9, 10, 20].map((hour) => row(hour, hour, 50))).intervalHours).toBe(1));
  test.each([[[]], [[row(0, 3, 90)]], [[row(0, 3, 90), row(0, 3, 90)]]])(
    "fewer than two times are refused by name",
    (rows) => expect(() => climateLog(rows)).toThrow(/^rows is \d; expected readings at two times/),
  );
  test("the order of the rows changes nothing", () => {
    const rows = Array.from({ length: 30 }, (_, hour) => row(hour, Math.sin(hour) * 20, 60 + 40 * Math.cos(hour)));
    fc.assert(
      fc.property(fc.shuffledSubarray(rows, { minLength: rows.length }), (shuffled) => {
        expect(climateLog(shuffled)).toEqual(climateLog(rows));
      }),
      { numRuns: 20 },
    );
  });
});

describe("what is hard to believe", () => {
  test.each([
    ["humidity up to 102 % is a sensor a little off and reads as 100", [row(0, 5, 102), row(1, 6, 60)], []],
    ["above it the time is missing", [row(0, 5, 102.1), row(1, 6, 90)], [["impossible", 0, 0]]],
    [
      "a broken sensor's run is told once",
      [row(0, 5, 60), row(1, 999, 60), row(2, -127, 60), row(3, 6, 61)],
      [["impossible", 1, 2]],
    ],
    ["-60 and 80 °C are still possible", [row(0, -60, 50), row(5, 80, 50)], []],
    ["15 K in an hour is weather, more is a jump", [row(0, 0, 50), row(1, 15, 50), row(2, 30.1, 50)], [["jump", 1, 2]]],
    ["40 % in an hour likewise", [row(0, 5, 50), row(1, 6, 90), row(2, 7, 49.9)], [["jump", 1, 2]]],
    ["a jump over two hours is none", [row(0, 0, 50), row(2, 30, 50), row(4, 30, 51)], []],
    [
      "readings every ten minutes: a slow rise adds up within the hour, and is told once",
      [0, 1, 2, 3, 4, 5, 6].map((ten) => row(ten / 6, 3 * ten, 50)),
      [["jump", 0, 1]],
    ],
    ["unchanged for eleven hours", Array.from({ length: 12 }, (_, hour) => row(hour, 5, 80)), []],
    ["unchanged for twelve hours", Array.from({ length: 13 }, (_, hour) => row(hour, 5, 80)), [["stuck", 0, 12]]],
    [
      "a gap ends what is unchanged: nobody knows what was between",
      [0, 1, 2, 3, 4, 5, 15, 16, 17].map((hour) => row(hour, 5, 80)),
      [],
    ],
  ])("%s", (_what, rows, told) => expect(suspects(rows as LogRow[])).toEqual(told));
});

describe("dew on steel", () => {
  const series = (airs: [number, number][]) =>
    airs.map(([tempC, rhPercent], elapsedHours) => ({ elapsedHours, tempC, rhPercent }));
  const hours = (airs: [number, number][], thicknessMm = 3) =>
    steelCondensation({ series: series(airs), intervalHours: 1, thicknessMm, heatTransferWM2K: 8 }).reduce(
      (sum, one) => sum + one.durationHours,
      0,
    );

  test("a cold sheet in warm damp air: as long as the warm-up of a lumped body says", () => {
    const warmed = steelWarmUp({
      shape: "sheet",
      sizeMm: 3,
      heatTransferWM2K: 8,
      startTempC: 5,
      airTempC: 15,
      rhPercent: 70,
      elapsedS: 0,
    });
    expect(
      hours([
        [5, 50],
        [15, 70],
      ]),
    ).toBeCloseTo(warmed.wetTimeS! / 3600, 9);
  });
  test("steel that starts at the air's temperature is dry below saturation", () =>
    expect(
      hours([
        [10, 99],
        [10, 99],
      ]),
    ).toBe(0));
  test("saturated air at the steel's temperature is at its dew point: wet", () =>
    expect(
      hours([
        [10, 100],
        [10, 100],
      ]),
    ).toBe(2));
  test("falling temperatures leave the steel warmer than the air: dry", () =>
    expect(
      hours([
        [15, 95],
        [10, 98],
        [5, 99],
      ]),
    ).toBe(0));
  test("thicker steel stays dewy for longer", () => {
    const airs: [number, number][] = [
      [5, 50],
      [15, 80],
      [15, 80],
      [15, 80],
    ];
    expect(hours(airs, 10)).toBeGreaterThan(hours(airs, 3));
  });
  test("after a stretch without readings the sheet starts anew at the air's temperature", () => {
    const gap = [
      { elapsedHours: 0, tempC: 5, rhPercent: 50 },
      { elapsedHours: 1, tempC: null, rhPercent: null },
      { elapsedHours: 2, tempC: 15, rhPercent: 90 },
    ];
    expect(steelCondensation({ series: gap, intervalHours: 1, thicknessMm: 3, heatTransferWM2K: 8 })).toEqual([]);
  });
  test.each([0, -1, Number.NaN])("a thickness of %d mm is refused by name", (thicknessMm) =>
    expect(() =>
      hours(
        [
          [5, 50],
          [15, 70],
        ],
        thicknessMm,
      ),
    ).toThrow(/^thicknessMm is/),
  );
});

describe("the summary of a log", () => {
  const year = (days: number) => Array.from({ length: days * 24 }, (_, hour) => row(hour, 10 + (hour % 5), 90));
  test("from 330 observed days up there is a year, and a class", () => {
    const { wetHoursPerYear, timeOfWetnessClass } = climateSummary(climateLog(year(330)), {
      thicknessMm: 3,
      zone: "UTC",
    });
    expect(wetHoursPerYear).toBeCloseTo(8760, 6);
    expect(timeOfWetnessClass).toBe("tau5");
  });
  test("from fewer there is neither", () =>
    expect(climateSummary(climateLog(year(329)), { thicknessMm: 3, zone: "UTC" })).toMatchObject({
      wetHoursPerYear: null,
      timeOfWetnessClass: null,
    }));

  // A sudden warm damp hour at 10:00 and one at 13:00 UTC: one night until noon, the next from noon on.
  const fronts = Array.from({ length: 24 }, (_, hour) => row(hour, hour === 10 || hour === 13 ? 20 : 5, 80));
  test.each([
    ["UTC", 2],
    ["Asia/Tokyo", 1], // 19:00 and 22:00 of one evening
  ])("nights run from noon to noon in %s: %d", (zone, nights) =>
    expect(climateSummary(climateLog(fronts), { thicknessMm: 3, zone }).condensation.nights).toBe(nights),
  );
});

describe("the clock on the wall", () => {
  const utc = (text: string) => Date.parse(`${text}Z`);
  test.each([
    ["an ordinary hour", "2026-06-01T12:00", ["2026-06-01T10:00"]],
    ["the hour that spring leaves out", "2026-03-29T02:30", []],
    ["the hour that autumn has twice", "2026-10-25T02:30", ["2026-10-25T00:30", "2026-10-25T01:30"]],
    ["just after it", "2026-10-25T03:00", ["2026-10-25T02:00"]],
  ])("Europe/Berlin: %s", (_what, wall, instants) =>
    expect(instantsOfWallClock("Europe/Berlin", utc(wall))).toEqual(instants.map(utc)),
  );
  test("a day of 23 hours and one of 25", () => {
    const hours = (date: string) =>
      (dayBegins("Europe/Berlin", { date, plusDays: 1, hour: 0 }) -
        dayBegins("Europe/Berlin", { date, plusDays: 0, hour: 0 })) /
      hourMs;
    expect([hours("2026-03-29"), hours("2026-10-25")]).toEqual([23, 25]);
  });
  test("midnight itself left out: the day begins where the clocks step on", () =>
    expect(dayBegins("America/Havana", { date: "2026-03-08", plusDays: 0, hour: 0 })).toBe(utc("2026-03-08T05:00")));
  test("a zone that is none is refused by name", () =>
    expect(() => wallClockMs("Middle/Earth", 0)).toThrow(/^zone is "Middle\/Earth"; expected a time zone/));
});
