/** A tape test's two photographs and what is read from them, as they cross the boundary. */
import * as z from "zod/mini";
import { tapePhotoReading } from "./observation.ts";
import { contentHash, cornersPx } from "./photo.ts";

const sideMm = z.number().check(z.minimum(2), z.maximum(100));

/** Corners: of the lattice's outer cuts, or the four ends of the X, clockwise; the X's long side first. */
const tapePictureRequest = z.strictObject({ photo: contentHash, cornersPx });

export const tapeReadingRequest = z.strictObject({
  before: tapePictureRequest,
  after: tapePictureRequest,
  pattern: z.discriminatedUnion("form", [
    z.strictObject({
      form: z.literal("cross-cut"),
      cuts: z.int().check(z.minimum(3), z.maximum(20)),
      spacingMm: z.number().check(z.minimum(0.5), z.maximum(10)),
    }),
    z.strictObject({ form: z.literal("x-cut"), sizeMm: z.strictObject({ lengthMm: sideMm, widthMm: sideMm }) }),
  ]),
});
export type TapeReadingRequest = z.infer<typeof tapeReadingRequest>;

/** Read, or why it cannot be. */
export const tapeReadingAnswer = z.discriminatedUnion("read", [
  z.strictObject({ read: z.literal(true), reading: tapePhotoReading }),
  z.strictObject({ read: z.literal(false), sentence: z.string() }),
]);
export type TapeReadingAnswer = z.infer<typeof tapeReadingAnswer>;
