/** Words of the form that brings a logger's file. */
import { counted, listed } from "./parts.ts";

export const climateLogText = {
  how: "A logger's file as CSV: a time (or time_utc), temp_c or temp_f, rh_percent or a dew point; one row for each reading. It may overlap what is there already.",
  file: "The file (CSV)",
  site: "Site",
  zone: "Its clock ran in the time zone",
  zoneHint: "Such as Europe/Berlin or UTC. A logger that keeps winter time all year: Etc/GMT-1 for one hour east.",
  zoneWrong: (zone: string) => `“${zone}” is no time zone.`,
  datesMean: "The dates are written as",
  choose: "Choose",
  dates: { dmy: "day, month, year", mdy: "month, day, year", ymd: "year, month, day" },
  needsFile: "Choose the file.",
  notText: "This file is no text in UTF-8. Export it from the logger as CSV.",
  tooBig: (bytes: number) => `This file is ${Math.round(bytes / 1e6)} MB; at most 20 MB are taken at once.`,
  notRead: (n: number) => `${counted(n, "thing")} could not be read. Nothing was guessed.`,
  problem: (row: number, column: string | null, value: string, expected: string) =>
    `Row ${row}${column ? `, ${column}` : ""}: ${value}; expected ${expected}`,
  more: (n: number) => `… and ${n} more.`,
  understood: (readings: number, from: string, to: string) =>
    `${counted(readings, "reading")} understood, from ${from} to ${to}.`,
  readAs: (columns: readonly { header: string; means: string }[]) =>
    `Read as: ${listed(columns.map(({ header, means }) => (header === means ? header : `${header} as ${means}`)))}.`,
  leftOut: (n: number) => `${counted(n, "row is", "rows are")} left out: a value is missing or impossible.`,
  none: "No row has both a temperature and a humidity that are possible.",
  keep: "Keep these readings",
  keeping: "Keeping them…",
  waits: (n: number) =>
    `${counted(n, "reading is", "readings are")} kept on this device, to be sent when the shop answers again.`,
  kept: (added: number, repeated: number) =>
    `${counted(added, "reading is", "readings are")} kept${repeated > 0 ? `; ${repeated} were there already` : ""}.`,
};
