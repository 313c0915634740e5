/** The clock on the wall in a named time zone: what it shows at an instant, and which instants it may mean. */
import { InputError } from "../input-error.ts";

const dayMs = 86_400_000;

const clocks = new Map<string, Intl.DateTimeFormat>();

function clockOf(zone: string): Intl.DateTimeFormat {
  const known = clocks.get(zone);
  if (known) return known;
  if (!isZone(zone)) throw new InputError("zone", zone, "a time zone such as Europe/Berlin or UTC");
  const clock = new Intl.DateTimeFormat("en", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  });
  clocks.set(zone, clock);
  return clock;
}

/**
 * Whether the runtime knows a time zone of this name.
 *
 * Units    none
 * Source   the time zone database of the runtime
 * Status   published
 */
export function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

/**
 * What the wall clock of a zone shows at an instant, written as if it were UTC.
 *
 * Units    ms since 1970, in and out
 * Source   the time zone database of the runtime
 * Status   published
 */
export function wallClockMs(zone: string, instantMs: number): number {
  if (zone === "UTC") return instantMs;
  const parts = clockOf(zone).formatToParts(instantMs);
  const part = (type: Intl.DateTimeFormatPartTypes) => Number(parts.find((one) => one.type === type)!.value);
  const toTheSecond = Date.UTC(
    part("year"),
    part("month") - 1,
    part("day"),
    part("hour"),
    part("minute"),
    part("second"),
  );
  return toTheSecond + (((instantMs % 1000) + 1000) % 1000);
}

/**
 * The instants at which the wall clock shows this: none in the hour that is left out in spring, two in the hour that comes
 * twice in autumn, else one. In ascending order.
 *
 * Units    ms since 1970; the wall clock's as if it were UTC
 * Source   the time zone database of the runtime
 * Status   published
 */
export function instantsOfWallClock(zone: string, wallMs: number): number[] {
  const offsetAt = (instantMs: number) => wallClockMs(zone, instantMs) - instantMs;
  const around = new Set([offsetAt(wallMs - dayMs), offsetAt(wallMs + dayMs)]);
  return [...around]
    .map((offset) => ({ offset, instantMs: wallMs - offset }))
    .filter(({ offset, instantMs }) => offsetAt(instantMs) === offset)
    .map(({ instantMs }) => instantMs)
    .sort((a, b) => a - b);
}

/**
 * The instant at which an hour of a calendar date begins, some days after a first date. Where the clocks leave that hour
 * out, the instant at which they step on.
 *
 * Units    date as YYYY-MM-DD; days whole; hour 0 or 12; ms since 1970 out
 * Source   the time zone database of the runtime
 * Status   published
 */
export function dayBegins(zone: string, at: { date: string; plusDays: number; hour: 0 | 12 }): number {
  const wallMs = Date.parse(`${at.date}T00:00:00Z`) + at.plusDays * dayMs + at.hour * 3_600_000;
  if (Number.isNaN(wallMs)) throw new InputError("date", at.date, "a date as YYYY-MM-DD");
  return instantsOfWallClock(zone, wallMs)[0] ?? wallMs - (wallClockMs(zone, wallMs - dayMs) - (wallMs - dayMs));
}
