/** The shop itself, what is due in it, and what it tells open pages. */
import * as z from "zod/mini";
import { possible } from "../core/climate/climate-log.ts";
import { observation, when } from "./observation.ts";
import { measurement } from "./photo.ts";

export const preferences = z.strictObject({
  temp: z.enum(["°C", "°F"]),
  length: z.enum(["mm", "in"]),
  mass: z.enum(["g", "oz"]),
});

/** A printer is off by a few percent at most; more is another page size. */
export const cardRulerMm = z.number().check(z.minimum(85), z.maximum(115));

/** What one weighing is good to, mg: the last digit of a balance. */
export const balanceMg = z.number().check(z.minimum(0.001), z.maximum(10_000));

export const shop = z.strictObject({
  /** Null until the user chose once. */
  preferences: z.nullable(preferences),
  /** What the 100 mm ruler of the printed measuring card measures, mm; null: nobody measured it, it counts as true. */
  cardRulerMm: z.nullable(cardRulerMm),
  /** Null: nobody said yet what the balance resolves. */
  balanceMg: z.nullable(balanceMg),
  /** The demonstration shop: invented data, said on every page. */
  invented: z.boolean(),
});
export type Shop = z.infer<typeof shop>;

export const trialSummary = z.strictObject({
  id: z.uuid(),
  name: z.string(),
  question: z.string(),
  createdAt: z.string(),
  coupons: z.int(),
  unblinded: z.boolean(),
});
export type TrialSummary = z.infer<typeof trialSummary>;

/** Everything a page needs of one trial: core folds the observations, the measurements carry the pictures. */
export const trialDocument = z.strictObject({
  id: z.uuid(),
  name: z.string(),
  createdAt: z.string(),
  observations: z.array(observation),
  measurements: z.array(measurement),
});
export type TrialDocument = z.infer<typeof trialDocument>;

/** One of two readings between which somebody has to choose; `reading` in words. */
const readingSaid = z.strictObject({ id: z.uuid(), by: z.string(), writtenAt: z.string(), reading: z.string() });
export type ReadingSaid = z.infer<typeof readingSaid>;

/** `what`: "look at coupon 3, front". `when` null: nobody wrote it down. */
const differing = z.strictObject({
  trial: z.strictObject({ id: z.uuid(), name: z.string() }),
  what: z.string(),
  when: z.nullable(when),
  counts: readingSaid,
  differs: readingSaid,
});
export type Differing = z.infer<typeof differing>;

const dueLook = z.strictObject({
  trial: z.strictObject({ id: z.uuid(), name: z.string() }),
  day: z.number(),
  date: z.iso.date(),
  number: z.int(),
  of: z.int(),
  coupons: z.array(z.string()),
  reason: z.string(),
});
const dueList = z.array(dueLook);

/** What needs hands, over all trials; `date` is the day that "today" means. A device may have kept one with fields that are gone. */
export const dueToday = z.object({
  date: z.iso.date(),
  overdue: dueList,
  today: dueList,
  thisWeek: dueList,
  later: dueList,
  /** What two devices wrote down differently; missing in what a device kept from earlier versions. */
  differing: z.optional(z.array(differing)),
});
export type DueToday = z.infer<typeof dueToday>;

/** One climate reading at a site. */
export const reading = z.strictObject({
  site: z.string().check(z.minLength(1)),
  at: z.iso.datetime({ offset: true }),
  tempC: z.number().check(z.minimum(possible.leastTempC), z.maximum(possible.mostTempC)),
  rhPercent: z.number().check(z.minimum(possible.leastRhPercent), z.maximum(possible.mostRhPercent)),
});
export type Reading = z.infer<typeof reading>;

/** A batch for one site, as a sensor or a file brings them; the site stands in the address. */
export const newReadings = z.array(z.omit(reading, { site: true })).check(z.minLength(1), z.maxLength(50_000));

/** Repeats of a moment that is known are dropped: the first reading counts. */
export const readingsAdded = z.strictObject({ added: z.int(), repeated: z.int() });

const wetHours = { wetHours: z.number(), unknownHours: z.number() };

/** A place where coupons hang, or of which a log is kept. */
export const siteSummary = z.strictObject({
  site: z.string(),
  hanging: z.array(
    z.strictObject({
      trial: z.strictObject({ id: z.uuid(), name: z.string() }),
      coupons: z.int(),
      since: z.iso.date(),
    }),
  ),
  lastReadingAt: z.nullable(z.iso.datetime({ offset: true })),
  /** The last 24 hours, one by one: up to now, or up to the log's end where that lies further back. Null without a log. */
  lastDay: z.nullable(
    z.strictObject({
      endsAt: z.iso.datetime({ offset: true }),
      endsNow: z.boolean(),
      ...wetHours,
      hours: z.array(z.strictObject(wetHours)),
    }),
  ),
  /** Since the first of the hanging coupons went out. */
  exposure: z.nullable(z.strictObject({ since: z.iso.date(), hours: z.number(), ...wetHours })),
});
export type SiteSummary = z.infer<typeof siteSummary>;

/** RFC 9457 problem details, with the fields that were refused. */
export const problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.optional(z.string()),
  errors: z.optional(z.array(z.object({ pointer: z.string(), detail: z.string() }))),
});
export type Problem = z.infer<typeof problem>;

/** Server-sent events: what changed, so that open pages ask again. */
export const shopEvent = z.discriminatedUnion("changed", [
  z.strictObject({ changed: z.literal("trial"), id: z.uuid() }),
  z.strictObject({ changed: z.literal("job"), id: z.uuid() }),
  z.strictObject({ changed: z.literal("shop") }),
  /** Who may reach the shop, and how. */
  z.strictObject({ changed: z.literal("sharing") }),
]);
export type ShopEvent = z.infer<typeof shopEvent>;

/** Says that the line still stands; a page that misses a few of them takes it for dead. */
export const livePulse = { event: "pulse", everyMs: 15_000 };

/** Where the demonstration shop can be seen. */
export const demoOpened = z.strictObject({ url: z.url() });
