/** A simulated curve of chances as it crosses a boundary. */
import * as z from "zod/mini";
import { betterOnes } from "../core/trial/plan-assumptions.ts";
import { declaredQuestion } from "./plan.ts";

const positive = z.number().check(z.positive());
const notNegative = z.number().check(z.minimum(0));
const share = z.strictObject({ share: z.number().check(z.minimum(0), z.maximum(1)), error: notNegative });
const count = z.int().check(z.minimum(1), z.maximum(1_000_000));

export const simulation = z.strictObject({
  kind: z.literal("simulation"),
  plan: z.uuid(),
  declared: declaredQuestion,
  each: count,
  finishes: count,
  size: positive,
  assumed: z.strictObject({
    control: z.number(),
    shape: positive,
    strokesLogSd: positive,
    areaLog10Sd: positive,
    classSd: positive,
    coefficientOfVariation: positive,
    colourSd: z.exactOptional(positive),
    blockLogSd: notNegative,
    batchLogSd: notNegative,
    lostShare: z.number().check(z.minimum(0), z.lt(1)),
  }),
  scatterFrom: z.string().check(z.maxLength(1000)),
  seed: z.int(),
  draws: count,
  program: z.string().check(z.minLength(1), z.maxLength(40)),
  wanted: count,
  points: z
    .array(
      z.strictObject({
        each: count,
        line: z.enum(betterOnes),
        trials: count,
        shown: share,
        all: share,
        falselyShown: share,
      }),
    )
    .check(z.minLength(1), z.maxLength(200)),
});
