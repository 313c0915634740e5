/** Each site in one line: what hangs there, and how wet it is and was. */
import type { SiteSummary } from "../api/shop.ts";
import { exposureClimate } from "../core/climate/exposure-climate.ts";
import { lastDay } from "../core/climate/last-day.ts";
import { dayBegins } from "../core/climate/zone-clock.ts";
import { daysBetween } from "../core/trial/calendar.ts";
import { hangingAtSites, type SiteInUse } from "../core/trial/hanging-at-sites.ts";
import { trialRecord } from "../core/trial/trial-record.ts";
import type { ShopStore } from "../store/open-shop.ts";
import { calendarDate, shopZone } from "./calendar-date.ts";

const dayMs = 86_400_000;

/** A log that ended this long ago, where nothing hangs, is history and no line of today. */
const shownAfterLastReadingMs = 30 * dayMs;

export async function siteSummaries(store: ShopStore, now: Date): Promise<SiteSummary[]> {
  const trials = await store.trials.all();
  const inUse = hangingAtSites(trials.map((trial) => trialRecord(trial, trial.observations)));
  const logged = new Map((await store.readings.sites()).map(({ site, lastAt }) => [site, lastAt]));
  const used = new Set(inUse.map(({ site }) => site));
  const idle = [...logged]
    .filter(([site, lastAt]) => !used.has(site) && now.getTime() - Date.parse(lastAt) < shownAfterLastReadingMs)
    .map(([site]) => ({ site, hanging: [] }));
  return Promise.all([...inUse, ...idle].map((one) => summary(store, one, logged.get(one.site) ?? null, now)));
}

async function summary(
  store: ShopStore,
  { site, hanging }: SiteInUse,
  lastReadingAt: string | null,
  now: Date,
): Promise<SiteSummary> {
  if (lastReadingAt === null) return { site, hanging, lastReadingAt, lastDay: null, exposure: null };
  const since = hanging.map((one) => one.since).sort()[0] ?? null;
  const zone = shopZone();
  const dayFrom = Math.min(now.getTime(), Date.parse(lastReadingAt)) - 2 * dayMs;
  const sinceMs = since === null ? dayFrom : dayBegins(zone, { date: since, plusDays: 0, hour: 0 });
  const readings = await store.readings.between(site, {
    from: new Date(Math.min(dayFrom, sinceMs)).toISOString(),
    to: now.toISOString(),
  });
  const rows = readings.map(({ at, tempC, rhPercent }) => ({ atMs: Date.parse(at), tempC, rhPercent }));
  const day = lastDay(rows, now.getTime());
  return {
    site,
    hanging,
    // A sensor whose clock runs ahead has readings that are not of today yet.
    lastReadingAt: readings.at(-1)?.at ?? lastReadingAt,
    lastDay: day && {
      endsAt: new Date(day.endsMs).toISOString(),
      endsNow: day.endsNow,
      wetHours: day.wetHours,
      unknownHours: day.unknownHours,
      hours: day.hours,
    },
    exposure: since === null ? null : exposureOf(rows, since, { zone, now }),
  };
}

function exposureOf(
  rows: Parameters<typeof exposureClimate>[0],
  since: string,
  { zone, now }: { zone: string; now: Date },
): SiteSummary["exposure"] {
  const days = daysBetween(since, calendarDate(now)) + 1;
  // Only its wet hours are told here, and wetness does not ask how thick the steel is.
  const found =
    days < 1 ? null : exposureClimate(rows, { start: since, zone, days, untilMs: now.getTime(), thicknessMm: 1 });
  return (
    found && { since, hours: found.whole.hours, wetHours: found.whole.wetHours, unknownHours: found.whole.unknownHours }
  );
}
