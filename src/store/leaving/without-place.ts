/**
 * A photograph as it may leave the shop: the same picture, without anything that could tell where it was taken. What
 * is known to be harmless stays, all else goes: cameras write places into notes of their own, previews and trailers too.
 */
import type { Photo } from "../../api/photo.ts";
import { InputError } from "../../core/input-error.ts";
import { jpegWithoutPlace } from "./jpeg-without-place.ts";
import { pngWithoutPlace } from "./png-without-place.ts";
import { webpWithoutPlace } from "./webp-without-place.ts";

const byMediaType: Record<Photo["mediaType"], (bytes: Buffer) => Buffer> = {
  "image/jpeg": jpegWithoutPlace,
  "image/png": pngWithoutPlace,
  "image/webp": webpWithoutPlace,
};

/** Pixels untouched; byte for byte the same where there was nothing to leave out. Refuses a file that it cannot follow. */
export function withoutPlace(bytes: Buffer, mediaType: Photo["mediaType"]): Buffer {
  try {
    const stripped = byMediaType[mediaType](bytes);
    return stripped.equals(bytes) ? bytes : stripped;
  } catch (error) {
    // Reading past the end: given away whole it might tell what nobody looked at.
    if (!(error instanceof RangeError)) throw error;
    throw new InputError("photo", "built so that its notes cannot be told from its picture", "a whole picture");
  }
}
