/** Times of a logger's rows: with their offset, in UTC, or on the wall clock of a zone that the user names. */
import { instantsOfWallClock } from "../core/climate/zone-clock.ts";
import { type DateOrder, readDate } from "./plain-table-date.ts";

/** A time as it stands in the file, before it is known on which clock. */
export type WrittenTime = { wallMs: number; offsetMinutes: number | null };
export type TimeReading =
  | { time: WrittenTime }
  | { twoWays: { order: DateOrder; date: string }[] }
  | { expected: string };

export const expectedTime = "a date and a time such as 2026-05-03 14:00";

/** Reads one time; the date and the time of day may come from two cells put together with a blank. */
export function readTime(text: string, order: DateOrder | null): TimeReading {
  const parts = text
    .trim()
    .match(
      /^(\S+?(?:[-/. ]\s?\S+?){2})(?:T|,?\s+)(\d{1,2}:\d{2}\S*(?:\s?[ap]\.?m\.?)?(?:\s?(?:z|utc|gmt|[+-]\d{2}:?\d{2}))?)$/i,
    );
  const clock = parts && readClock(parts[2]!);
  if (!clock) return { expected: expectedTime };
  const date = readDate(parts[1]!, order);
  if (!("date" in date)) return date;
  return { time: { wallMs: Date.parse(`${date.date}T00:00:00Z`) + clock.ms, offsetMinutes: clock.offsetMinutes } };
}

function readClock(text: string): { ms: number; offsetMinutes: number | null } | null {
  const parts = text.match(
    /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s?([ap])?(?:\.?m\.?)?\s?(z|utc|gmt|[+-]\d{2}:?\d{2})?$/i,
  );
  if (!parts) return null;
  const [, hourText, minuteText, secondText = "0", half, offset] = parts;
  const written = Number(hourText);
  if (half && (written < 1 || written > 12)) return null;
  const hour = half ? (written % 12) + (half.toLowerCase() === "p" ? 12 : 0) : written;
  const [minute, second] = [Number(minuteText), Number(secondText)];
  if (hour > 23 || minute > 59 || second > 59) return null;
  return { ms: ((hour * 60 + minute) * 60 + second) * 1000, offsetMinutes: offset ? offsetOf(offset) : null };
}

function offsetOf(text: string): number {
  const parts = text.match(/^([+-])(\d{2}):?(\d{2})$/);
  if (!parts) return 0;
  return (parts[1] === "-" ? -1 : 1) * (Number(parts[2]) * 60 + Number(parts[3]));
}

/** Times in the file's order become instants, or an expectation that one of them does not meet. */
export type PlacedTime = { atMs: number; repeatedHour: boolean } | { expected: string };

/**
 * Wall-clock times of a zone as instants. In the hour that autumn has twice, a time is the earlier one unless the log has
 * come past it; a log that is written newest first is gone through from its end.
 */
export function placeTimes(written: readonly (WrittenTime | null)[], zone: string): (PlacedTime | null)[] {
  const walls = written.filter((time) => time !== null);
  const newestFirst = walls.length > 1 && walls[0]!.wallMs > walls.at(-1)!.wallMs;
  let pastMs = Number.NEGATIVE_INFINITY;
  const place = (time: WrittenTime | null): PlacedTime | null => {
    if (time === null) return null;
    const placed = placeOne(time, zone, pastMs);
    if ("atMs" in placed) pastMs = placed.atMs;
    return placed;
  };
  if (!newestFirst) return written.map(place);
  return [...written].reverse().map(place).reverse();
}

function placeOne({ wallMs, offsetMinutes }: WrittenTime, zone: string, pastMs: number): PlacedTime {
  if (offsetMinutes !== null) return { atMs: wallMs - offsetMinutes * 60_000, repeatedHour: false };
  const instants = instantsOfWallClock(zone, wallMs);
  const [earlier, later] = instants;
  if (earlier === undefined)
    return {
      expected: `a time that the clocks of ${zone} show: they step forward over it; a logger that keeps one offset all year: its offset as zone, such as Etc/GMT-1`,
    };
  return { atMs: later !== undefined && earlier <= pastMs ? later : earlier, repeatedHour: later !== undefined };
}
