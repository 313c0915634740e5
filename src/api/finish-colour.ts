/** A photograph of which the finish colour is asked, and what is read, as they cross the boundary. */
import * as z from "zod/mini";
import { colourReading } from "./observation.ts";
import { cornersPx, measurementRequest } from "./photo.ts";

export const colourReadingRequest = z.pick(measurementRequest, {
  photo: true,
  cornersPx: true,
  sizeMm: true,
  edgeBandMm: true,
  thicknessMm: true,
  hiddenMm: true,
  outlineMm: true,
});
export type ColourReadingRequest = z.infer<typeof colourReadingRequest>;

/** Read, or why it cannot be; with corners where some were found. */
export const colourReadingAnswer = z.discriminatedUnion("read", [
  z.strictObject({ read: z.literal(true), reading: colourReading }),
  z.strictObject({ read: z.literal(false), sentence: z.string(), cornersPx: z.nullable(cornersPx) }),
]);
export type ColourReadingAnswer = z.infer<typeof colourReadingAnswer>;
