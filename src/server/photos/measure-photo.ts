/** One photograph from file to numbers and pictures, and the same again after a hand's correction. */
import { join } from "node:path";
import sharp from "sharp";
import type { BrushStroke, KnownLight, Measurement, PhotoRefusal } from "../../api/photo.ts";
import { InputError } from "../../core/input-error.ts";
import { d610Letter } from "../../core/rating/d610-distribution.ts";
import { d610Grade } from "../../core/rating/d610-grade.ts";
import { iso4628Degree } from "../../core/rating/iso4628-3-degree.ts";
import { protectionRating, protectionRatingContinuous } from "../../core/rating/iso10289-rating.ts";
import { type FaceRectangle, faceRectangle, rustedShares } from "../../core/vision/assessed-face.ts";
import { withStrokes } from "../../core/vision/brush.ts";
import { rustAroundContacts } from "../../core/vision/contact-points.ts";
import { overlayPicture } from "../../core/vision/overlay.ts";
import { withHidden, withinOutline } from "../../core/vision/polygons.ts";
import { marks, type RgbImage, type RustMask } from "../../core/vision/raster.ts";
import { type FoundRust, rustByModel } from "../../core/vision/rust-by-model.ts";
import type { RustModel } from "../../core/vision/rust-model.ts";
import { rustSince } from "../../core/vision/rust-since.ts";
import { rustUncertainty } from "../../core/vision/rust-uncertainty.ts";
import { rustSpots, spotClassesMm, spotCounts, spotDiameterMm } from "../../core/vision/spots.ts";
import { unknownLightWarning } from "../../core/vision/unknown-light.ts";
import { workingShrink } from "../../core/vision/working-size.ts";
import { decodePhoto, openedPhoto } from "./read-photo.ts";
import { type HowMeasured, type SeenCoupon, seeCoupon } from "./see-coupon.ts";

type Numbers = Pick<
  Measurement,
  | "method"
  | "pxPerMm"
  | "assessedAreaMm2"
  | "rustedPercent"
  | "edgePercent"
  | "d610"
  | "iso10289"
  | "iso10289Continuous"
  | "iso4628"
  | "d610Letter"
  | "spots"
  | "contactPercents"
>;
type Doubt = Pick<Measurement, "rustPercentInterval" | "gradeSpan" | "rustSince">;
/** Where the coupon lay, how good the picture was, and what told its light. */
type Seen = Pick<SeenCoupon, "cornersPx" | "card" | "gate"> & { light: KnownLight };
type Pictures = { image: RgbImage; mask: RustMask; face: FaceRectangle };
/** What came since the first photograph, as numbers and as a mask. */
type Since = { numbers: NonNullable<Doubt["rustSince"]>; mask: RustMask };
type Progress = (share: number) => void;

/** The numbers of a measurement, and its pictures as files that the caller moves to where they belong. */
export type MeasuredPhoto = Numbers &
  Doubt &
  Partial<Seen> & { rectifiedPath: string; maskPath: string; overlayPath: string; sinceOverlayPath?: string };

/** What is known beside the photograph itself. */
type Known = {
  printScale: number;
  model: RustModel;
  /** The face's first photograph, square on; null where none is to be compared. */
  first: { measurement: string; rectifiedPath: string } | null;
};

/** Measures a photograph and writes its three pictures into `outDir`; `progress` runs from 0 to 1. */
export async function measurePhoto(
  task: Known & { photoPath: string; request: HowMeasured; outDir: string; progress: Progress },
): Promise<MeasuredPhoto | PhotoRefusal> {
  const assessed = await assessPhoto(task);
  if ("refused" in assessed) return assessed;
  const { numbers, seen, pictures, since } = assessed;
  const rectifiedPath = join(task.outDir, "rectified.jpg");
  const sinceOverlayPath = join(task.outDir, "since.jpg");
  const [written] = await Promise.all([
    writeFound(pictures, task.outDir),
    rawOf(pictures.image).jpeg({ quality: 90 }).toFile(rectifiedPath),
    since && writeOverlay({ ...pictures, mask: since.mask }, sinceOverlayPath),
  ]);
  task.progress(1);
  return { ...numbers, ...seen, ...written, rectifiedPath, ...(since ? { sinceOverlayPath } : {}) };
}

/** The numbers alone, with the pictures still in memory; or why there are none. */
export async function assessPhoto(
  task: Known & { photoPath: string; request: HowMeasured; progress: Progress },
): Promise<{ numbers: Numbers & Doubt; seen: Seen; pictures: Pictures; since: Since | null } | PhotoRefusal> {
  const { request, progress, printScale, model } = task;
  const opened = await openedPhoto(task.photoPath);
  const by = workingShrink(opened, request.sizeMm, request.cornersPx);
  const photo = await opened.decoded(by);
  progress(0.5);
  const seen = await seeCoupon({ photo, printScale, readNearer: opened.part }, request);
  if ("refused" in seen) return seen;
  const { image, pxPerMm, cornersPx, card, gate, lightBy } = seen;
  progress(0.6);
  const found = rustByModel(image, null, pxPerMm, model);
  const mask = judgedPart(found, request);
  progress(0.8);
  const face = faceRectangle(image, request.sizeMm, request.edgeBandMm);
  // Corners set by hand lie on each other too roughly for a comparison place by place.
  const since = task.first && card ? await sinceFirst(seen, task.first, request, model) : null;
  const doubt = doubtOf({ ...mask, logOdds: found.logOdds }, face, model);
  const light =
    lightBy.by === "nothing"
      ? { ...lightBy, warning: unknownLightWarning(image, face, doubt.rustPercentInterval) }
      : lightBy;
  return {
    numbers: {
      ...numbersOf(mask, face, request, { pxPerMm, method: model.name }),
      ...doubt,
      ...(since ? { rustSince: since.numbers } : {}),
    },
    seen: { cornersPx, card, gate, light },
    pictures: { image, mask, face },
    since,
  };
}

function doubtOf(found: FoundRust, face: FaceRectangle, model: RustModel) {
  const onFace = new Uint8Array(found.marks.length);
  for (let row = face.top; row < face.bottom; row++)
    onFace.fill(1, row * found.widthPx + face.left, row * found.widthPx + face.right);
  const { lower, upper, confidence } = rustUncertainty(found, onFace, model);
  return {
    rustPercentInterval: { low: lower, high: upper, confidencePercent: 100 * confidence },
    gradeSpan: { best: d610Grade(lower), worst: d610Grade(upper) },
  };
}

async function sinceFirst(
  { image, pxPerMm }: SeenCoupon,
  first: NonNullable<Known["first"]>,
  request: HowMeasured,
  model: RustModel,
): Promise<Since> {
  const { widthPx, heightPx } = image;
  const { data } = await sharp(first.rectifiedPath)
    .resize(widthPx, heightPx, { fit: "fill" })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const before = { widthPx, heightPx, rgb: new Uint8Array(data.buffer, data.byteOffset, data.length) };
  const mask = judgedPart(rustSince(before, image, pxPerMm, model), request);
  const face = faceRectangle(image, request.sizeMm, request.edgeBandMm);
  const { rustedPercent, edgePercent } = rustedShares(mask, face, request.sizeMm, request.edgeBandMm);
  return { numbers: { first: first.measurement, rustedPercent, edgePercent, d610: d610Grade(rustedPercent) }, mask };
}

/** Less what lies outside the coupon's outline, and what is hidden. */
export function judgedPart(
  mask: RustMask,
  { sizeMm, outlineMm, hiddenMm }: Pick<HowMeasured, "sizeMm" | "outlineMm" | "hiddenMm">,
): RustMask {
  const shaped = outlineMm ? withinOutline(mask, sizeMm, outlineMm) : mask;
  return hiddenMm ? withHidden(shaped, sizeMm, hiddenMm) : shaped;
}

/** Paints strokes over an earlier measurement's mask and counts again; `method`, `pxPerMm` and what was seen are that measurement's. */
export async function correctMeasurement(task: {
  rectifiedPath: string;
  maskPath: string;
  request: HowMeasured;
  method: string;
  pxPerMm: number;
  strokes: readonly BrushStroke[];
  outDir: string;
  progress: Progress;
}): Promise<MeasuredPhoto> {
  const { request, progress, rectifiedPath } = task;
  const [image, before] = await Promise.all([decodePhoto(rectifiedPath), readMask(task.maskPath)]);
  progress(0.4);
  const mask = withStrokes(before, request.sizeMm, task.strokes);
  const face = faceRectangle(image, request.sizeMm, request.edgeBandMm);
  const numbers = numbersOf(mask, face, request, task);
  progress(0.7);
  const written = await writeFound({ image, mask, face }, task.outDir);
  progress(1);
  return { ...numbers, ...written, rectifiedPath };
}

/** Where so many spots are drawn, the small ones say nothing more. */
const mostSpotsShown = 200;

function numbersOf(
  mask: RustMask,
  face: FaceRectangle,
  request: HowMeasured,
  { pxPerMm, method }: { pxPerMm: number; method: string },
): Numbers {
  const shares = rustedShares(mask, face, request.sizeMm, request.edgeBandMm);
  const spots = rustSpots(mask, face, request.sizeMm);
  return {
    method,
    pxPerMm,
    ...shares,
    d610: d610Grade(shares.rustedPercent),
    d610Letter: d610Letter(shares.rustedPercent, spots, request.sizeMm.lengthMm),
    iso10289: protectionRating(shares.rustedPercent),
    iso10289Continuous: protectionRatingContinuous(shares.rustedPercent),
    iso4628: iso4628Degree(shares.rustedPercent),
    spots: {
      count: spots.length,
      byClass: spotCounts(spots).map((count, at) => ({ fromMm: spotClassesMm[at]!, count })),
      largest: spots
        .slice(0, mostSpotsShown)
        .map((spot) => ({ xMm: spot.xMm, yMm: spot.yMm, diameterMm: spotDiameterMm(spot) })),
    },
    contactPercents: rustAroundContacts(mask, request.sizeMm, request.contactsMm ?? []),
  };
}

async function writeFound(pictures: Pictures, outDir: string) {
  const { mask } = pictures;
  const maskPath = join(outDir, "mask.png");
  const overlayPath = join(outDir, "overlay.jpg");
  const grey = { width: mask.widthPx, height: mask.heightPx, channels: 1 } as const;
  await Promise.all([
    sharp(mask.marks, { raw: grey }).toColourspace("b-w").png({ compressionLevel: 6 }).toFile(maskPath),
    writeOverlay(pictures, overlayPath),
  ]);
  return { maskPath, overlayPath };
}

function writeOverlay({ image, mask, face }: Pictures, path: string) {
  return rawOf(overlayPicture(image, mask, face))
    .jpeg({ quality: 85 })
    .toFile(path);
}

function rawOf(image: RgbImage) {
  return sharp(image.rgb, { raw: { width: image.widthPx, height: image.heightPx, channels: 3 } });
}

/** The mask of an earlier measurement. Refuses a picture that holds anything but the three marks. */
export async function readMask(path: string): Promise<RustMask> {
  const { data, info } = await sharp(path)
    .toColourspace("b-w")
    .extractChannel(0)
    .raw()
    .toBuffer({ resolveWithObject: true });
  const known: readonly number[] = Object.values(marks);
  const stranger = data.find((value) => !known.includes(value));
  if (stranger !== undefined) throw new InputError("mask", stranger, `only ${known.join(", ")}`);
  return { widthPx: info.width, heightPx: info.height, marks: new Uint8Array(data) };
}
