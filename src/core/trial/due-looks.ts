/** Which coupons want to be looked at, and when. */
import { dateAfter, daysBetween } from "./calendar.ts";
import { exposureDay } from "./exposure-days.ts";
import { isPast } from "./hanging-at-sites.ts";
import type { TrialRecord } from "./trial-record.ts";

export type DueLook = {
  trial: { id: string; name: string };
  /** Planned day of exposure, and its date in the calendar. */
  day: number;
  date: string;
  /** Look `number` of `of`. */
  number: number;
  of: number;
  coupons: string[];
  /** "look 4 of 10, planned for 2026-05-10" */
  reason: string;
};
export type DueLooks = { overdue: DueLook[]; today: DueLook[]; thisWeek: DueLook[]; later: DueLook[] };

/**
 * What is due from a date (YYYY-MM-DD) on. A coupon taken down needs no look, nor does a trial that was closed or came from a table. A look that
 * was missed is overdue only until the next one is due: then that one is the look to do.
 */
export function dueLooks(record: TrialRecord, today: string): DueLooks {
  const due: DueLooks = { overdue: [], today: [], thisWeek: [], later: [] };
  // The days of a notebook are days on which somebody looked, not planned ones.
  if (isPast(record)) return due;
  for (const look of wantedLooks(record, today)) due[stageOf(daysBetween(today, look.date))].push(look);
  return due;
}

const daysOfAWeek = 7;

function stageOf(daysAhead: number): keyof DueLooks {
  if (daysAhead < 0) return "overdue";
  if (daysAhead === 0) return "today";
  return daysAhead < daysOfAWeek ? "thisWeek" : "later";
}

function wantedLooks(record: TrialRecord, today: string): DueLook[] {
  const lookDays = [...new Set(record.plan.lookDays)].sort((a, b) => a - b);
  const looks = new Map<string, DueLook>();
  for (const { coupon, since } of couponsOut(record))
    for (const day of wantedDays(record, { coupon, since, lookDays, today })) {
      const date = dateAfter(since, day);
      const number = lookDays.indexOf(day) + 1;
      const key = `${day} ${date}`;
      const known = looks.get(key);
      if (known) known.coupons.push(coupon);
      else
        looks.set(key, {
          trial: { id: record.id, name: record.name },
          day,
          date,
          number,
          of: lookDays.length,
          coupons: [coupon],
          reason: `look ${number} of ${lookDays.length}, planned for ${date}`,
        });
    }
  return [...looks.values()].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : a.day - b.day));
}

function couponsOut(record: TrialRecord): { coupon: string; since: string }[] {
  const down = new Set(record.takenDown.map(({ body }) => body.coupon));
  return record.putOut
    .flatMap(({ body }) => body.coupons.map((coupon) => ({ coupon, since: body.date })))
    .filter(({ coupon }) => !down.has(coupon));
}

/** Planned days still wanted of one coupon: of those that have come only the latest, and all that are to come. */
function wantedDays(
  record: TrialRecord,
  { coupon, since, lookDays, today }: { coupon: string; since: string; lookDays: readonly number[]; today: string },
): number[] {
  const done = new Set(
    record.looks.flatMap(({ body }) => {
      const day = body.coupon === coupon ? exposureDay(record, coupon, body.when) : null;
      return day === null ? [] : [nearest(lookDays, day)];
    }),
  );
  const lastDone = Math.max(-1, ...done);
  const open = lookDays.filter((day) => day > lastDone);
  const now = daysBetween(since, today);
  const come = open.filter((day) => Math.round(day) <= now);
  return [...come.slice(-1), ...open.filter((day) => !come.includes(day))];
}

/** A look a day early or late is the look of the planned day nearest to it. */
const nearest = (lookDays: readonly number[], day: number): number =>
  lookDays.reduce(
    (best, planned) => (Math.abs(planned - day) < Math.abs(best - day) ? planned : best),
    lookDays[0] ?? day,
  );
