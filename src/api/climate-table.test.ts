import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { climateLog } from "../core/climate/climate-log.ts";
import { dewPoint } from "../core/climate/humid-air.ts";
import { timeOfWetness } from "../core/climate/time-of-wetness.ts";
import { readClimateTable } from "./climate-table.ts";
import { climateColumnOf } from "./climate-table-columns.ts";

const wishes = { zone: null, dates: null };
const instants = (content: string, zone: string | null = null) =>
  readClimateTable(content, { zone, dates: null }).rows?.map((row) => new Date(row.atMs).toISOString().slice(5, 16));

describe("how loggers spell their columns", () => {
  test.each([
    ["time_utc", "time_utc"],
    ["Time (UTC)", "time_utc"],
    ["Timestamp", "time"],
    ["Date Time", "time"],
    ["datetime_gmt", "time_utc"],
    ["Date", "date"],
    ["temp_c", "temp_c"],
    ["Temperature (°C)", "temp_c"],
    ["Temperature_Celsius(℃)", "temp_c"],
    ["Air Temp. °F", "temp_f"],
    ["Temperature in degrees Fahrenheit", "temp_f"],
    ["Temperature", "temp without unit"],
    ["Temperature sensor 2", null],
    ["RH", "rh_percent"],
    ["Relative Humidity (%)", "rh_percent"],
    ["Humidity %RH", "rh_percent"],
    ["Absolute Humidity (g/m³)", null],
    ["Dew Point (°C)", "dew_point_c"],
    ["dew_point_f", "dew_point_f"],
    ["battery", null],
  ])("%s", (header, column) => expect(climateColumnOf(header)).toBe(column));
});

describe("a logger's file", () => {
  test("semicolons, decimal commas, units in the cells, missing values", () =>
    expect(
      readClimateTable(
        "Time UTC;Temperature (°C);Humidity (%)\n2026-05-03 14:00;21,5 °C;55,5 %\n2026-05-03 15:00;NA;\n",
        wishes,
      ).rows,
    ).toEqual([
      { atMs: Date.parse("2026-05-03T14:00:00Z"), tempC: 21.5, rhPercent: 55.5 },
      { atMs: Date.parse("2026-05-03T15:00:00Z"), tempC: null, rhPercent: null },
    ]));
  test("Fahrenheit, and a dew point in place of the humidity", () => {
    const { rows, understood } = readClimateTable(
      "time_utc,temp_f,dew_point_f\n2026-05-03T14:00:00Z,68,48.67\n2026-05-03T15:00:00Z,68,68\n",
      wishes,
    );
    expect(rows?.[0]?.tempC).toBeCloseTo(20, 9);
    expect(dewPoint({ tempC: 20, rhPercent: rows![0]!.rhPercent! })).toBeCloseTo((48.67 - 32) / 1.8, 6);
    expect(rows?.[1]?.rhPercent).toBeCloseTo(100, 9);
    expect(understood.notes).toEqual(["Humidity computed from the dew point in 2 rows."]);
  });
  test("times with their offset need no zone; date and time in two columns do", () => {
    expect(instants("time,temp_c,rh\n2026-05-03T14:00:00+02:00,20,50\n2026-05-03T13:30Z,20,50\n")).toEqual([
      "05-03T12:00",
      "05-03T13:30",
    ]);
    const twoCells = "Date,Time,temp_c,rh\n2026-05-03,2:00 PM,20,50\n2026-05-03,12:30 am,20,50\n";
    expect(readClimateTable(twoCells, wishes).questions).toMatchObject([
      { about: "zone", question: "On the clock of which zone was 2026-05-03 2:00 PM written?" },
    ]);
    expect(instants(twoCells, "Europe/Berlin")).toEqual(["05-03T12:00", "05-02T22:30"]);
  });
  test("dates that read two ways are asked for", () => {
    const content = "time_utc,temp_c,rh\n05/03/2026 14:00,20,50\n05/03/2026 15:00,20,50\n";
    expect(readClimateTable(content, wishes)).toMatchObject({
      rows: null,
      questions: [{ about: "dates", answers: ["dmy", "mdy"] }],
    });
    expect(
      readClimateTable(content, { zone: null, dates: "dmy" }).rows?.map((row) => new Date(row.atMs).getUTCMonth()),
    ).toEqual([2, 2]);
  });
});

describe("when the clocks change", () => {
  const log = (...times: string[]) => `time,temp_c,rh\n${times.map((time) => `${time},10,50`).join("\n")}\n`;
  const autumn = ["2026-10-25 01:00", "2026-10-25 02:00", "2026-10-25 02:00", "2026-10-25 03:00"];

  test("autumn: the hour that comes twice is told apart by its order", () => {
    const told = ["10-24T23:00", "10-25T00:00", "10-25T01:00", "10-25T02:00"];
    expect(instants(log(...autumn), "Europe/Berlin")).toEqual(told);
    expect(instants(log(...[...autumn].reverse()), "Europe/Berlin"), "newest first").toEqual([...told].reverse());
  });
  test("autumn, every half hour", () =>
    expect(
      instants(log("2026-10-25 02:00", "2026-10-25 02:30", "2026-10-25 02:00", "2026-10-25 02:30"), "Europe/Berlin"),
    ).toEqual(["10-25T00:00", "10-25T00:30", "10-25T01:00", "10-25T01:30"]));
  test("autumn, the same time thrice: the third repeats the second", () => {
    const rows = readClimateTable(log("2026-10-25 02:00", "2026-10-25 02:00", "2026-10-25 02:00"), {
      zone: "Europe/Berlin",
      dates: null,
    }).rows!;
    expect(climateLog(rows)).toMatchObject({ readings: 3, duplicates: 1 });
  });
  test("spring: a time that no clock showed is refused, with a way out", () => {
    const content = log("2026-03-29 01:30", "2026-03-29 02:30", "2026-03-29 03:30");
    expect(readClimateTable(content, { zone: "Europe/Berlin", dates: null }).problems).toMatchObject([
      {
        row: 3,
        column: "time",
        value: "2026-03-29 02:30",
        expected: expect.stringMatching(/step forward.*Etc\/GMT-1/),
      },
    ]);
    expect(instants(content, "Etc/GMT-1")).toEqual(["03-29T00:30", "03-29T01:30", "03-29T02:30"]);
  });
});

describe("what cannot be taken", () => {
  test.each([
    ["no table", "hello", /^row 1.*expected a header row with the columns time_utc/],
    ["a temperature without its unit", "time_utc,temperature,rh\n2026-05-03 14:00,20,50\n", /temperature.*its unit/],
    ["no humidity", "time_utc,temp_c\n2026-05-03 14:00,20\n", /rh_percent, or a dew point/],
    ["no rows", "time_utc,temp_c,rh\n", /^row 2/],
    ["a date alone", "date,temp_c,rh\n2026-05-03,20,50\n", /time of day/],
    ["no time in a row", "time_utc,temp_c,rh\n,20,50\n", /^row 2 time_utc: empty; expected a date and a time/],
    ["a word for a number", "time_utc,temp_c,rh\n2026-05-03 14:00,warm,50\n", /^row 2 temp_c: warm; expected a number/],
    ["a day that is none", "time_utc,temp_c,rh\n2026-02-30 14:00,20,50\n", /^row 2 time_utc: 2026-02-30 14:00/],
    ["an hour that is none", "time_utc,temp_c,rh\n2026-02-20 25:00,20,50\n", /^row 2 time_utc: 2026-02-20 25:00/],
  ])("%s", (_what, content, said) => {
    const { problems, rows } = readClimateTable(content, wishes);
    const lines = problems.map(({ row, column, value, expected }) =>
      [`row ${row}`, ...(column ? [column] : [])].join(" ").concat(`: ${value}; expected ${expected}`),
    );
    expect(lines[0]).toMatch(said);
    expect(rows).toBeNull();
  });
});

describe("a year at a coastal airport (public weather reports, CC0)", () => {
  const content = readFileSync(join(import.meta.dirname, "../../tests/weather/coastal-airport-2013.csv"), "utf8");
  const { rows } = readClimateTable(content, wishes);

  test("hours wet, observed and missing as an independent program counted them", () => {
    const log = climateLog(rows!);
    expect(log).toMatchObject({ readings: 8706, duplicates: 0, intervalHours: 1 });
    expect(timeOfWetness(log)).toEqual({ wetHours: 1390, observedHours: 8716, missingHours: 14 });
  });
  test("the humidity from the dew points is that of the report, up to the report's rounding", () => {
    const withoutHumidity = content.replace("rh_percent", "untouched");
    const apart = readClimateTable(withoutHumidity, wishes)
      .rows!.map((row, at) => Math.abs(row.rhPercent! - rows![at]!.rhPercent!))
      .sort((a, b) => a - b);
    expect(apart[Math.floor(apart.length / 2)]).toBeLessThan(0.1);
    expect(apart[Math.floor(apart.length * 0.99)]).toBeLessThan(6);
  });
});
