/** Two photographs of a tape test from file to numbers and one picture. */
import { join } from "node:path";
import sharp from "sharp";
import type { TapeReadingRequest } from "../../api/tape-photo.ts";
import { latticeOtherClass, latticePhotoClass, xOtherClass, xPhotoClass } from "../../core/rating/tape-photo-class.ts";
import type { TapePhotoReading } from "../../core/trial/tape-test.ts";
import { findCard } from "../../core/vision/find-card.ts";
import { tapeReading } from "../../core/vision/tape-reading.ts";
import { decodePhoto } from "./read-photo.ts";
import { tapeGate } from "./tape-gate.ts";
import { inOneLight } from "./tape-light.ts";

/** `printScale`: how large this shop's measuring card came out of its printer. */
export type TapeTask = {
  beforePath: string;
  afterPath: string;
  request: TapeReadingRequest;
  printScale: number;
  outDir: string;
};

/** The reading without its pictures' hashes, and the overlay as a file; or why nothing can be read. */
export type ReadTape =
  | { read: true; numbers: Omit<TapePhotoReading, "before" | "after" | "overlay">; overlayPath: string }
  | { read: false; sentence: string };

export async function readTape({ beforePath, afterPath, request, printScale, outDir }: TapeTask): Promise<ReadTape> {
  const { before, after, pattern } = request;
  const pictures = {
    before: { photo: await decodePhoto(beforePath), cornersPx: before.cornersPx },
    after: { photo: await decodePhoto(afterPath), cornersPx: after.cornersPx },
  };
  const cards = {
    before: findCard(pictures.before.photo, printScale),
    after: findCard(pictures.after.photo, printScale),
  };
  for (const which of ["before", "after"] as const) {
    const { photo, cornersPx } = pictures[which];
    const sentence = tapeGate(photo, { cornersPx, pattern, card: cards[which] });
    if (sentence !== null) return { read: false, sentence: `The photograph ${which} the pull: ${sentence}` };
  }
  const lit = inOneLight(pictures, cards);
  const reading = tapeReading(lit.before, lit.after, pattern);
  if ("unreadable" in reading) return { read: false, sentence: reading.sentence };
  const { removal, overlay, method } = reading;
  const { d3359, iso } =
    removal.form === "cross-cut" ? latticePhotoClass(removal.removedPercent) : xPhotoClass(removal);
  const otherClass =
    removal.form === "cross-cut"
      ? latticeOtherClass(removal.removedPercent, removal.span)
      : xOtherClass(removal, removal.span);
  const overlayPath = join(outDir, "overlay.jpg");
  await sharp(overlay.rgb, { raw: { width: overlay.widthPx, height: overlay.heightPx, channels: 3 } })
    .jpeg({ quality: 88 })
    .toFile(overlayPath);
  return {
    read: true,
    numbers: {
      method,
      removedPercent: removal.removedPercent,
      span: removal.span,
      mapPercents: removal.form === "cross-cut" ? removal.squarePercents : removal.flagPercents,
      tapeClass: d3359,
      isoClass: iso,
      ...(otherClass && { otherClass }),
    },
    overlayPath,
  };
}
