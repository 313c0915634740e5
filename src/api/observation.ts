/** What may be written down about a trial: the same schemas for server, page and import. */
import * as z from "zod/mini";
import { tapeClasses } from "../core/rating/tape-classes.ts";
import type { Observation, ObservationBody } from "../core/trial/trial-record.ts";
import { plan } from "./plan.ts";

export const name = z.string().check(z.trim(), z.minLength(1), z.maxLength(200));
export const note = z.string().check(z.maxLength(4000));
const couponList = z.array(name).check(z.minLength(1), z.maxLength(1000));
const percent = z.number().check(z.minimum(0), z.maximum(100));
const instant = z.iso.datetime({ offset: true });
const date = z.iso.date();

export const when = z.union([z.strictObject({ date }), z.strictObject({ day: z.number().check(z.minimum(0)) })]);

export const look = z.strictObject({
  kind: z.literal("look"),
  coupon: name,
  face: z.enum(["front", "back"]),
  when,
  rustedPercent: percent,
  edgePercent: z.nullable(percent),
  how: z.enum(["photo", "eye", "table"]),
  blind: z.boolean(),
  measurement: z.nullable(z.uuid()),
});

export const tapeTest = z.strictObject({
  kind: z.literal("tape test"),
  coupon: name,
  when,
  tapeClass: z.enum(tapeClasses),
  blind: z.boolean(),
  note,
});

export const application = z.strictObject({
  kind: z.literal("application"),
  step: name,
  coupons: couponList,
  startedAt: instant,
  endedAt: z.nullable(instant),
  tempC: z.nullable(z.number().check(z.minimum(-60), z.maximum(400))),
  note,
});

export const deviation = z.strictObject({
  kind: z.literal("deviation"),
  coupons: couponList,
  step: z.nullable(name),
  what: z.string().check(z.trim(), z.minLength(1), z.maxLength(1000)),
  paperworkOnly: z.boolean(),
});

export const putOut = z.strictObject({ kind: z.literal("put out"), site: name, date, coupons: couponList });

export const takenDown = z.strictObject({
  kind: z.literal("taken down"),
  coupon: name,
  when,
  reason: z.enum(["rust", "state", "lost", "test", "other"]),
  note,
});

export const observationBody = z.discriminatedUnion("kind", [
  look,
  tapeTest,
  application,
  deviation,
  putOut,
  takenDown,
  z.strictObject({ kind: z.literal("plan"), plan }),
  z.strictObject({ kind: z.literal("unblinding") }),
  z.strictObject({ kind: z.literal("withdrawal") }),
]);

export const correction = z.strictObject({
  id: z.uuid(),
  why: z.string().check(z.trim(), z.minLength(1), z.maxLength(1000)),
});

/** What a face sends. The id is made where it was written down, so that a repeat is recognised and dropped. */
export const newObservation = z.strictObject({
  id: z.uuid(),
  by: name,
  corrects: z.nullable(correction),
  body: observationBody,
});
export type NewObservation = z.infer<typeof newObservation>;

export const observation = z.extend(newObservation, { recordedAt: instant });

// The schema and the domain type are written apart (core imports nothing); this line fails to compile when they part.
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
export const bodyMatchesDomain: Same<z.infer<typeof observationBody>, ObservationBody> = true;
export const observationMatchesDomain: Same<z.infer<typeof observation>, Observation> = true;
