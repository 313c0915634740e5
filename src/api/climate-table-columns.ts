/** Which header of a logger's file means which column. Loggers spell them in many ways; what cannot be told is not guessed. */
import type { TableShape } from "./plain-table-text.ts";

export const climateColumns = [
  "time_utc",
  "time",
  "date",
  "temp_c",
  "temp_f",
  "rh_percent",
  "dew_point_c",
  "dew_point_f",
] as const;
/** A temperature without its unit is recognised, and refused in words. */
export type ClimateColumn = (typeof climateColumns)[number] | "temp without unit" | "dew_point without unit";

/** A header without what parts its words: "Temperature_Celsius(°C)" and "temperature celsius °c" are one. */
const plain = (header: string): string =>
  header
    .toLowerCase()
    .replaceAll("℃", "°c")
    .replaceAll("℉", "°f")
    .replace(/[\s_\-/.,()[\]:]+/g, "");

const degrees = "(?:deg(?:rees?)?|°|º|in)*";
const celsius = new RegExp(`^${degrees}(?:c|celsius|centigrade|c°c|celsius°c)$`);
const fahrenheit = new RegExp(`^${degrees}(?:f|fahrenheit|f°f|fahrenheit°f)$`);

/** The column that a header means; null: it is carried along. */
export function climateColumnOf(header: string): ClimateColumn | null {
  const name = plain(header);
  const time = name.match(/^(?:date)?time(?:stamp)?(?:local)?(utc|gmt|z)?$/);
  if (time) return time[1] ? "time_utc" : "time";
  if (/^(?:utc|gmt)(?:date)?time(?:stamp)?$/.test(name)) return "time_utc";
  if (name === "date") return "date";
  if (/^(?:air)?(?:rel(?:ative)?)?(?:humidity|rh)(?:rh)?(?:%|percent|pct)?(?:rh)?$/.test(name)) return "rh_percent";
  const dew = name.match(/^dewpoint(?:temp(?:erature)?)?(.*)$/);
  if (dew) return withUnit("dew_point", dew[1]!);
  const temp = name.match(/^(?:air|ambient|outdoor|outside)?(?:temp(?:erature)?|t)(.*)$/);
  return temp ? withUnit("temp", temp[1]!) : null;
}

function withUnit(of: "temp" | "dew_point", unit: string): ClimateColumn | null {
  if (celsius.test(unit)) return `${of}_c`;
  if (fahrenheit.test(unit)) return `${of}_f`;
  return unit === "" ? `${of} without unit` : null;
}

/** A reading every minute for a year. */
const maxLogRows = 530_000;

export const climateTableShape: TableShape = {
  columnOf: climateColumnOf,
  fits: (columns) =>
    columns.some((column) => column === "time_utc" || column === "time" || column === "date") &&
    columns.some((column) => column?.startsWith("temp") ?? false),
  expected: "the columns time_utc (or time), temp_c or temp_f, and rh_percent (or a dew point)",
  maxRows: maxLogRows,
};
