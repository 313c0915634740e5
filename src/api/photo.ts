/** Photographs and their measurements as they cross a boundary. */
import * as z from "zod/mini";
import { note } from "./observation.ts";

/** SHA-256 of the file, in lower-case hex: its name in the shop and its proof. */
export const contentHash = z.string().check(z.regex(/^[0-9a-f]{64}$/));

export const photo = z.strictObject({
  hash: contentHash,
  mediaType: z.enum(["image/jpeg", "image/png", "image/webp"]),
  bytes: z.int(),
  /** As seen upright, after the EXIF turn. */
  widthPx: z.int(),
  heightPx: z.int(),
  takenAt: z.nullable(z.string()),
});
export type Photo = z.infer<typeof photo>;

/** Widths in which a small copy of a photograph is given; a fixed few, so that they are made once and kept. */
export const previewWidths = [96, 160, 320, 640, 1280] as const;

const pointPx = z.tuple([z.number(), z.number()]);

/** Corners of the coupon in the upright picture, clockwise from its top left as the number reads. */
export const cornersPx = z.tuple([pointPx, pointPx, pointPx, pointPx]);

/** How a photograph is to be measured. lengthMm runs along the first side (corner 1 to 2). */
export const measurementRequest = z.strictObject({
  id: z.uuid(),
  photo: contentHash,
  cornersPx,
  sizeMm: z.strictObject({ lengthMm: z.number().check(z.positive()), widthMm: z.number().check(z.positive()) }),
  edgeBandMm: z.number().check(z.minimum(0)),
});
export type MeasurementRequest = z.infer<typeof measurementRequest>;

/** Painted over a measurement by a finger: centre lines and width in mm on the rectified coupon. */
export const brushStroke = z.strictObject({
  paint: z.enum(["rust", "not rust", "left out"]),
  widthMm: z.number().check(z.positive()),
  pointsMm: z.array(z.tuple([z.number(), z.number()])).check(z.minLength(1), z.maxLength(5000)),
});
export type BrushStroke = z.infer<typeof brushStroke>;

export const handCorrection = z.strictObject({
  id: z.uuid(),
  by: z.string().check(z.trim(), z.minLength(1), z.maxLength(200)),
  why: note.check(z.trim(), z.minLength(1)),
  strokes: z.array(brushStroke).check(z.minLength(1), z.maxLength(2000)),
});
export type HandCorrection = z.infer<typeof handCorrection>;

export const measurement = z.strictObject({
  id: z.uuid(),
  request: measurementRequest,
  /** Name and version of the method that found the rust. */
  method: z.string(),
  pxPerMm: z.number(),
  assessedAreaMm2: z.number(),
  rustedPercent: z.number(),
  edgePercent: z.nullable(z.number()),
  d610: z.int(),
  iso10289: z.int(),
  iso10289Continuous: z.number(),
  /** The rectified picture (JPEG), the rust found (PNG, 255 = rust) and both together (JPEG), by content hash. */
  rectified: contentHash,
  mask: contentHash,
  overlay: contentHash,
  byHand: z.nullable(z.strictObject({ by: z.string(), why: z.string(), from: z.uuid() })),
  measuredAt: z.string(),
});
export type Measurement = z.infer<typeof measurement>;

/** Long work: asked for, watched, cancelled. */
export const job = z.strictObject({
  id: z.uuid(),
  state: z.enum(["waiting", "working", "done", "failed", "cancelled"]),
  progress: z.number(),
  failure: z.nullable(z.string()),
});
export type Job = z.infer<typeof job>;
