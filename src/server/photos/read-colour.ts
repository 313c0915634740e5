/** A coupon's finish colour from a photograph with the measuring card: file in, numbers and one picture out. */
import { join } from "node:path";
import sharp from "sharp";
import type { ColourReadingRequest } from "../../api/finish-colour.ts";
import type { PhotoRefusal } from "../../api/photo.ts";
import type { ColourReading } from "../../core/trial/trial-record.ts";
import { faceRectangle } from "../../core/vision/assessed-face.ts";
import { blotchPicture } from "../../core/vision/blotch-picture.ts";
import { cardLight } from "../../core/vision/card-light.ts";
import { cardPatches } from "../../core/vision/card-patches.ts";
import { findCard } from "../../core/vision/find-card.ts";
import { faceColour } from "../../core/vision/finish-colour.ts";
import { judgedPart } from "./measure-photo.ts";
import { decodePhoto } from "./read-photo.ts";
import { seeCoupon } from "./see-coupon.ts";

export type ColourTask = { photoPath: string; request: ColourReadingRequest; printScale: number; outDir: string };

/** The reading without its pictures' hashes, and the map as a file; or why nothing can be read. */
export type ReadColour =
  | { read: true; numbers: Omit<ColourReading, "photo" | "map">; mapPath: string }
  | ({ read: false } & Pick<PhotoRefusal, "sentence" | "cornersPx">);

const method = "mean of cells of 2.5 mm in the card's light, version 1";

export async function readColour({ photoPath, request, printScale, outDir }: ColourTask): Promise<ReadColour> {
  const photo = await decodePhoto(photoPath);
  const seen = await seeCoupon({ photo, printScale }, request);
  if ("refused" in seen) return { read: false, sentence: seen.sentence, cornersPx: seen.cornersPx };
  const card = findCard(photo, printScale);
  // With corners by hand the coupon is seen without a card too, but a colour needs its light.
  if (!card) return { read: false, sentence: noCard, cornersPx: seen.cornersPx };
  const patches = cardPatches(photo, card, cardLight(photo, card, seen.cornersPx));
  const face = faceRectangle(seen.image, request.sizeMm, request.edgeBandMm);
  const { widthPx, heightPx } = seen.image;
  const whole = { widthPx, heightPx, marks: new Uint8Array(widthPx * heightPx) };
  const colour = faceColour(seen.image, face, request.sizeMm, judgedPart(whole, request));
  const map = blotchPicture(seen.image, face, colour);
  const mapPath = join(outDir, "map.jpg");
  await sharp(map.rgb, { raw: { width: map.widthPx, height: map.heightPx, channels: 3 } })
    .jpeg({ quality: 88 })
    .toFile(mapPath);
  const { lab, lightnessSd, blotches } = colour;
  return { read: true, numbers: { method, lab, lightnessSd, blotches, patches }, mapPath };
}

const noCard =
  "No measuring card was found in this picture. A colour needs the card's paper and grey patches beside the coupon: without them it says nothing about the steel.";
