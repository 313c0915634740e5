/** A large photograph that comes in pieces, so that a broken line costs one piece and not the whole. */
import * as z from "zod/mini";
import { contentHash, photo } from "./photo.ts";

/** A photograph up to this size goes in one piece. */
export const pieceBytes = 512 * 1024;

/** Above this a photograph is refused, in one piece or in many. */
export const photoLimitBytes = 60_000_000;

export const newUpload = z.strictObject({
  /** Of the whole file: what arrives must be this very content. */
  sha256: contentHash,
  bytes: z.int().check(z.minimum(1), z.maximum(photoLimitBytes)),
  type: z.string().check(z.maxLength(100)),
});
export type NewUpload = z.infer<typeof newUpload>;

export const uploadId = z.string().check(z.regex(/^[0-9a-f]{32}$/));

/** `offset`: how many bytes are in the shop; the next piece begins there. `photo` once it is whole. */
export const uploadState = z.strictObject({ id: uploadId, offset: z.int(), photo: z.nullable(photo) });
export type UploadState = z.infer<typeof uploadState>;
