/** Days between dates of the calendar. No clock and no time zone: a date is a date. */
import { InputError } from "../input-error.ts";

const msPerDay = 86_400_000;

/** A date that exists, as YYYY-MM-DD; null where there is no such day (30 February). */
export function isoDate({ year, month, day }: { year: number; month: number; day: number }): string | null {
  const at = new Date(Date.UTC(year, month - 1, day));
  const exists = at.getUTCFullYear() === year && at.getUTCMonth() === month - 1 && at.getUTCDate() === day;
  return exists ? at.toISOString().slice(0, 10) : null;
}

/** Whole days from the first date to the second, both YYYY-MM-DD; negative when the second is earlier. */
export function daysBetween(from: string, date: string): number {
  return (dayNumber("date", date) - dayNumber("from", from)) / msPerDay;
}

/** The date some whole days after (before, when negative) a date, YYYY-MM-DD. */
export function dateAfter(from: string, days: number): string {
  return new Date(dayNumber("from", from) + Math.round(days) * msPerDay).toISOString().slice(0, 10);
}

function dayNumber(argument: string, date: string): number {
  const at = /^\d{4}-\d{2}-\d{2}$/.test(date) ? Date.parse(`${date}T00:00:00Z`) : Number.NaN;
  // Read leniently, 30 February would be 2 March.
  if (Number.isNaN(at) || new Date(at).toISOString().slice(0, 10) !== date)
    throw new InputError(argument, date, "a date as YYYY-MM-DD");
  return at;
}
