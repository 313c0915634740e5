/** A trial's plan as it crosses a boundary. */
import * as z from "zod/mini";
import { valueKinds, wearPlaces } from "../core/trial/declared-question.ts";
import { rustScales } from "../core/trial/scale-ends.ts";
import { colourMeasures, colourStates } from "../core/trial/seen-as.ts";
import { weighedAs } from "../core/trial/weighed-as.ts";

const name = z.string().check(z.trim(), z.minLength(1), z.maxLength(200));
const positive = z.number().check(z.positive());

export const routeStep = z.strictObject({ name, treated: z.enum(["alone", "together"]) });

export const treatment = z.strictObject({
  name,
  role: z.enum(["control", "finish", "witness"]),
  route: z.nullable(z.array(routeStep).check(z.maxLength(40))),
});

export const couponSize = z.strictObject({
  lengthMm: positive.check(z.maximum(2000)),
  widthMm: positive.check(z.maximum(2000)),
  thicknessMm: positive.check(z.maximum(200)),
});

const asked = {
  family: z.enum(["control", "pairs"]),
  margin: z.nullable(positive),
  exploratory: z.exactOptional(z.literal(true)),
  order: z.exactOptional(z.array(name).check(z.minLength(3), z.maxLength(30))),
};
const atDay = z.nullable(z.number().check(z.minimum(0)));
const classEnd = z.int().check(z.minimum(0), z.maximum(100));

export const declaredQuestion = z.discriminatedUnion("response", [
  z.strictObject({ response: z.literal("time to first rust"), atDay: z.null(), ...asked }),
  z.strictObject({ response: z.literal("rusted area"), atDay, ...asked }),
  z.strictObject({ response: z.literal("grade"), scale: z.enum(rustScales), atDay, ...asked }),
  z.strictObject({ response: z.literal("tape class"), named: z.exactOptional(name), atDay: z.null(), ...asked }),
  z.strictObject({
    response: z.literal("strokes to breakthrough"),
    place: z.nullable(z.enum(wearPlaces)),
    atDay: z.null(),
    ...asked,
  }),
  z.strictObject({
    response: z.literal("value"),
    name,
    kind: z.enum(valueKinds),
    better: z.enum(["higher", "lower"]),
    unit: z.string().check(z.maxLength(40)),
    ratio: z.boolean(),
    scale: z.nullable(z.strictObject({ best: classEnd, worst: classEnd })),
    weighed: z.exactOptional(z.enum(weighedAs)),
    seen: z.exactOptional(z.strictObject({ of: z.enum(colourMeasures), state: z.enum(colourStates) })),
    atDay: z.null(),
    ...asked,
  }),
]);

const destructiveTest = z.enum(["tape test", "weighing by stripping"]);
const spreadRule = z.enum(["no treatment all on one edge"]);

export const lookDays = z.array(z.number().check(z.minimum(0), z.maximum(20000))).check(z.maxLength(200));

export const plan = z.strictObject({
  question: z.string().check(z.maxLength(2000)),
  questions: z.array(declaredQuestion).check(z.maxLength(20)),
  treatments: z.array(treatment).check(z.minLength(1), z.maxLength(30)),
  couponSize,
  edgeBandMm: z.number().check(z.minimum(0), z.maximum(500)),
  rustThresholdPercent: z.number().check(z.minimum(0), z.maximum(100)),
  lookDays,
  places: z
    .array(
      z.strictObject({
        coupon: name,
        treatment: name,
        block: z.nullable(name),
        rack: z.nullable(z.strictObject({ row: z.int().check(z.minimum(1)), column: z.int().check(z.minimum(1)) })),
        spare: z.boolean(),
        batch: z.exactOptional(name),
        keptFor: z.exactOptional(destructiveTest),
      }),
    )
    .check(z.maxLength(1000)),
  allocation: z.discriminatedUnion("how", [
    z.strictObject({ how: z.literal("drawn"), seed: z.int(), spread: z.exactOptional(spreadRule) }),
    z.strictObject({ how: z.enum(["assumed", "not randomised"]), seed: z.exactOptional(z.int()) }),
  ]),
  invented: z.boolean(),
});

/** What the user decides before the lot is drawn. */
export const planDraft = z.strictObject({
  question: z.string().check(z.maxLength(2000)),
  questions: z.array(declaredQuestion).check(z.minLength(1), z.maxLength(20)),
  treatments: z
    .array(z.extend(treatment, { coupons: z.int().check(z.minimum(1), z.maximum(100)), route: z.array(routeStep) }))
    .check(z.minLength(1), z.maxLength(30)),
  blocks: z.int().check(z.minimum(1), z.maximum(50)),
  /** Blocks too small for every treatment: so many different ones in each. Absent: every block holds all. */
  blockSize: z.exactOptional(z.int().check(z.minimum(2), z.maximum(29))),
  /** Batches of each treatment, or of treatments that share one, for the steps done together. Absent: one go. */
  batchesOfEach: z.exactOptional(z.int().check(z.minimum(1), z.maximum(50))),
  spread: z.exactOptional(spreadRule),
  /** Coupons of each treatment that a test uses up before the others are put out. */
  testCoupons: z.exactOptional(
    z
      .array(z.strictObject({ test: destructiveTest, ofEach: z.int().check(z.minimum(1), z.maximum(20)) }))
      .check(z.maxLength(2)),
  ),
  /** Spare coupons of each treatment. */
  sparesOfEach: z.int().check(z.minimum(0), z.maximum(20)),
  couponSize,
  edgeBandMm: z.number().check(z.minimum(0), z.maximum(500)),
  rustThresholdPercent: z.number().check(z.minimum(0), z.maximum(100)),
  lookDays: lookDays.check(z.minLength(1)),
  rackColumns: z.int().check(z.minimum(1), z.maximum(100)),
  seed: z.int().check(z.minimum(0)),
});
export type PlanDraft = z.infer<typeof planDraft>;

export const newTrial = z.strictObject({ id: z.uuid(), name, by: name, draft: planDraft });
export type NewTrial = z.infer<typeof newTrial>;
