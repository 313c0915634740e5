/** An inspector's readings of plates of known rust: of the inspector and the shop, not of a trial. */
import * as z from "zod/mini";
import { readingWays } from "../core/rating/eye-agreement.ts";
import { platesOfTest } from "../core/rating/rust-plate.ts";
import { name } from "./observation.ts";

/** What the page sends. The seed makes the plates again; the id is made where the test was done, so a repeat is dropped. */
export const newEyeTest = z.strictObject({
  id: z.uuid(),
  by: name,
  way: z.enum(readingWays),
  seed: z.int().check(z.minimum(0)),
  /** A percent or a D610 grade of each plate, in the order they were shown. */
  read: z.array(z.number().check(z.minimum(0), z.maximum(100))).check(z.length(platesOfTest)),
});
export type NewEyeTest = z.infer<typeof newEyeTest>;

/** As kept: with the true areas, so that plates drawn otherwise one day change no old result. */
export const eyeTest = z.extend(newEyeTest, {
  truePercents: z.array(z.number()),
  recordedAt: z.iso.datetime({ offset: true }),
});
export type EyeTest = z.infer<typeof eyeTest>;
