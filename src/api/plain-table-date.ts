/** Dates of a table. One that can be read two ways is never guessed: the user says which. */
import { isoDate } from "../core/trial/calendar.ts";

export const dateOrders = ["dmy", "mdy", "ymd"] as const;
export type DateOrder = (typeof dateOrders)[number];

export type DateReading = { date: string } | { twoWays: { order: DateOrder; date: string }[] } | { expected: string };

const expected = "a date such as 2026-05-03";

/** Reads one date; a two-digit year is of this century (a shop's notebook is not older). */
export function readDate(text: string, order: DateOrder | null): DateReading {
  const parts = text.trim().match(/^(\d{1,4})([-/. ])\s?(\d{1,2})\2\s?(\d{1,4})(?:[T ]\d{1,2}:\d{2}.*)?$/);
  if (!parts) return { expected };
  const [first, second, third] = [parts[1]!, parts[3]!, parts[4]!];
  const asOrder = (one: DateOrder): string | null => {
    const [year, month, day] = {
      ymd: [first, second, third],
      dmy: [third, second, first],
      mdy: [third, first, second],
    }[one] as [string, string, string];
    if ((year.length !== 4 && year.length !== 2) || month.length > 2 || day.length > 2) return null;
    const fullYear = year.length === 2 ? 2000 + Number(year) : Number(year);
    return isoDate({ year: fullYear, month: Number(month), day: Number(day) });
  };
  // A year of four digits in front is the written form of the calendar standard; no order turns it round.
  if (first.length === 4) return orExpected(asOrder("ymd"), "ymd");
  if (order) return orExpected(asOrder(order), order);
  const readings = dateOrders.flatMap((one) => {
    const date = asOrder(one);
    return date === null ? [] : [{ order: one, date }];
  });
  if (new Set(readings.map((one) => one.date)).size > 1) return { twoWays: readings };
  return readings[0] ? { date: readings[0].date } : { expected };
}

function orExpected(date: string | null, order: DateOrder): DateReading {
  return date === null ? { expected: `a date of the calendar, ${orderWords[order]}` } : { date };
}

const orderWords = {
  dmy: "day, month, year (dmy)",
  mdy: "month, day, year (mdy)",
  ymd: "year, month, day (ymd)",
} as const;
