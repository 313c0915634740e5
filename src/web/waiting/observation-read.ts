/** The observation that comes of a later reading: a colour is written down with it, a tape test by eye is corrected by it. */
import type { NewObservation } from "../../api/observation.ts";
import type { TapePhotoReading } from "../../core/trial/tape-test.ts";
import type { ColourReading, TapeTest } from "../../core/trial/trial-record.ts";
import { partedOf } from "../inspect/tape-details.ts";
import type { LaterReading, WaitingReading } from "./waiting-item.ts";

type Written = Pick<WaitingReading, "id" | "by" | "corrects">;

export function colourRead(
  { id, by, corrects }: Written,
  { body }: Extract<LaterReading, { of: "finish colour" }>,
  reading: ColourReading,
): NewObservation {
  return { id, by, corrects, body: { ...body, reading } };
}

export function tapeRead(
  { id, by, corrects }: Written,
  { body, counts, parted }: Extract<LaterReading, { of: "tape test" }>,
  photo: TapePhotoReading,
): NewObservation {
  const { details } = body;
  const tapeClass = counts === "photo" ? photo.tapeClass : body.tapeClass;
  const read: TapeTest = details
    ? { ...body, tapeClass, details: { ...details, photo, counts, parted: partedOf(tapeClass, parted) } }
    : body;
  return { id, by, corrects, body: read };
}
