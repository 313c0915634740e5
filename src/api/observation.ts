/** What may be written down about a trial: the same schemas for server, page and import. */
import * as z from "zod/mini";
import { tapeClasses } from "../core/rating/tape-classes.ts";
import { wearPlaces } from "../core/trial/declared-question.ts";
import { rustScales } from "../core/trial/scale-ends.ts";
import { colourStates } from "../core/trial/seen-as.ts";
import { tapePartings } from "../core/trial/tape-test.ts";
import type { Observation, ObservationBody } from "../core/trial/trial-record.ts";
import { wearMotions } from "../core/trial/wear-conditions.ts";
import { weighedStates } from "../core/trial/weighed-as.ts";
import { plan } from "./plan.ts";
import { simulation } from "./simulation.ts";

export const name = z.string().check(z.trim(), z.minLength(1), z.maxLength(200));
export const note = z.string().check(z.maxLength(4000));
const couponList = z.array(name).check(z.minLength(1), z.maxLength(1000));
const notNegative = z.number().check(z.minimum(0));
const percent = z.number().check(z.minimum(0), z.maximum(100));
const instant = z.iso.datetime({ offset: true });
const date = z.iso.date();

export const when = z.union([z.strictObject({ date }), z.strictObject({ day: z.number().check(z.minimum(0)) })]);

const lookAtCoupon = {
  kind: z.literal("look"),
  coupon: name,
  face: name,
  when,
  edgePercent: z.nullable(percent),
  how: z.enum(["photo", "eye", "table"]),
  blind: z.boolean(),
  measurement: z.nullable(z.uuid()),
};
export const percentLook = z.strictObject({
  ...lookAtCoupon,
  scale: z.exactOptional(z.undefined()),
  rustedPercent: percent,
});
export const look = z.discriminatedUnion("scale", [
  percentLook,
  z.strictObject({
    ...lookAtCoupon,
    scale: z.enum(rustScales),
    rating: z.int().check(z.minimum(0), z.maximum(10)),
  }),
]);

const fileHash = z.string().check(z.regex(/^[0-9a-f]{64}$/));

export const tapePhotoReading = z.strictObject({
  before: fileHash,
  after: fileHash,
  overlay: fileHash,
  method: z.string(),
  removedPercent: percent,
  span: z.strictObject({ from: percent, to: percent }),
  mapPercents: z.array(percent).check(z.maxLength(400)),
  tapeClass: z.enum(tapeClasses),
  isoClass: z.int().check(z.minimum(0), z.maximum(5)),
  otherClass: z.exactOptional(z.enum(tapeClasses)),
});

const tapeTestDetails = z.strictObject({
  cut: z.discriminatedUnion("form", [
    z.strictObject({
      form: z.literal("cross-cut"),
      spacingMm: z.number().check(z.minimum(0.5), z.maximum(10)),
      cuts: z.int().check(z.minimum(2), z.maximum(20)),
    }),
    z.strictObject({ form: z.literal("x-cut") }),
  ]),
  tape: z.strictObject({ name: z.string().check(z.maxLength(200)), qualified: z.boolean() }),
  parted: z.nullable(z.enum(tapePartings)),
  eyeClass: z.enum(tapeClasses),
  photo: z.nullable(tapePhotoReading),
  counts: z.enum(["eye", "photo"]),
  painted: z.nullable(
    z.strictObject({
      primer: z.nullable(name),
      passes: z.nullable(z.int().check(z.minimum(1), z.maximum(20))),
      steelTempC: z.nullable(z.number().check(z.minimum(-20), z.maximum(100))),
      flashMinutes: z.nullable(notNegative),
      cureHours: z.nullable(notNegative),
      thicknessUm: z.nullable(z.number().check(z.positive(), z.maximum(2000))),
    }),
  ),
});

export const tapeTest = z.strictObject({
  kind: z.literal("tape test"),
  coupon: name,
  when: z.nullable(when),
  tapeClass: z.enum(tapeClasses),
  blind: z.boolean(),
  note,
  details: z.exactOptional(tapeTestDetails),
});

export const firstRustTime = z.strictObject({
  kind: z.literal("first rust"),
  coupon: name,
  leftDays: notNegative,
  rightDays: z.nullable(notNegative),
  blind: z.boolean(),
  note,
});

/** Of a photograph of a look; by whom, says the observation. */
export const photoGrading = z.strictObject({
  kind: z.literal("photo grading"),
  coupon: name,
  face: name,
  when,
  rustedPercent: percent,
});

export const wearTest = z.strictObject({
  kind: z.literal("wear test"),
  coupon: name,
  place: z.nullable(z.enum(wearPlaces)),
  when: z.nullable(when),
  leftStrokes: notNegative,
  rightStrokes: z.nullable(notNegative),
  blind: z.boolean(),
  note,
  conditions: z.exactOptional(
    z.strictObject({
      motion: z.enum(wearMotions),
      medium: z.string().check(z.maxLength(200)),
      grit: z.nullable(name),
      loadG: z.nullable(z.number().check(z.positive(), z.maximum(1_000_000))),
      perMinute: z.nullable(z.number().check(z.positive(), z.maximum(100_000))),
      by: z.nullable(z.enum(["hand", "jig"])),
    }),
  ),
  massLostMg: z.exactOptional(notNegative),
  again: z.exactOptional(z.literal(true)),
});

export const measuredValue = z.strictObject({
  kind: z.literal("value"),
  coupon: name,
  name,
  value: z.number(),
  when: z.nullable(when),
  how: z.enum(["table", "bench"]),
  blind: z.boolean(),
  note,
  again: z.exactOptional(z.literal(true)),
});

export const weighing = z.strictObject({
  kind: z.literal("weighing"),
  coupon: name,
  with: z.array(name).check(z.maxLength(20)),
  state: z.enum(weighedStates),
  massG: z.number().check(z.positive(), z.maximum(100_000)),
  balanceMg: z.number().check(z.positive(), z.maximum(100_000)),
  when,
  blind: z.boolean(),
  note,
});

const lab = z.strictObject({ lStar: z.number(), aStar: z.number(), bStar: z.number() });

export const colourReading = z.strictObject({
  photo: fileHash,
  map: fileHash,
  method: z.string(),
  lab,
  lightnessSd: notNegative,
  blotches: z
    .array(
      z.strictObject({
        xMm: z.number(),
        yMm: z.number(),
        areaMm2: z.number().check(z.positive()),
        deltaE: notNegative,
        lighter: z.boolean(),
      }),
    )
    .check(z.maxLength(200)),
  patches: z.array(lab).check(z.minLength(2), z.maxLength(20)),
});

export const finishColour = z.strictObject({
  kind: z.literal("finish colour"),
  coupon: name,
  when,
  state: z.enum(colourStates),
  reading: colourReading,
  note,
});

export const circumstance = z.strictObject({
  kind: z.literal("circumstance"),
  coupon: name,
  name,
  value: z.union([z.string().check(z.minLength(1), z.maxLength(1000)), z.number()]),
});

export const application = z.strictObject({
  kind: z.literal("application"),
  step: name,
  coupons: couponList,
  startedAt: z.nullable(instant),
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

export const putOut = z.strictObject({ kind: z.literal("put out"), site: z.nullable(name), date, coupons: couponList });

export const takenDown = z.strictObject({
  kind: z.literal("taken down"),
  coupon: name,
  when,
  reason: z.enum(["rust", "state", "lost", "test", "other"]),
  note,
});

export const standIn = z.strictObject({
  kind: z.literal("stand-in"),
  spare: name,
  for: name,
  why: z.string().check(z.trim(), z.minLength(1), z.maxLength(1000)),
});

export const observationBody = z.discriminatedUnion("kind", [
  look,
  tapeTest,
  firstRustTime,
  photoGrading,
  wearTest,
  measuredValue,
  weighing,
  finishColour,
  circumstance,
  application,
  deviation,
  putOut,
  takenDown,
  standIn,
  simulation,
  z.strictObject({ kind: z.literal("plan"), plan }),
  z.strictObject({ kind: z.literal("unblinding") }),
  z.strictObject({ kind: z.literal("withdrawal") }),
]);

export const correction = z.strictObject({
  id: z.uuid(),
  why: z.string().check(z.trim(), z.minLength(1), z.maxLength(1000)),
});

const said = { id: z.uuid(), by: name, corrects: z.nullable(correction), body: observationBody };
const deviceClock = { deviceClock: instant, skewMs: z.int() };

/** What a face sends. The id is made where it was written down, so that a repeat is recognised and dropped. */
export const newObservation = z.strictObject({
  ...said,
  /** Where it waited on a device: what its clock said then, and by how much that clock was behind the shop's. */
  clock: z.exactOptional(z.strictObject(deviceClock)),
});
export type NewObservation = z.infer<typeof newObservation>;

export const observation = z.strictObject({
  ...said,
  recordedAt: instant,
  written: z.exactOptional(z.strictObject({ at: instant, ...deviceClock })),
  device: z.exactOptional(z.string()),
});

// The schema and the domain type are written apart (core imports nothing); this line fails to compile when they part.
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
export const bodyMatchesDomain: Same<z.infer<typeof observationBody>, ObservationBody> = true;
export const observationMatchesDomain: Same<z.infer<typeof observation>, Observation> = true;
