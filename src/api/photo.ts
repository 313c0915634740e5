/** Photographs and their measurements as they cross a boundary. */
import * as z from "zod/mini";
import { cardNames } from "../core/vision/measuring-card.ts";
import { gateNames } from "../core/vision/photo-gate.ts";
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

/** A place in the upright picture. */
export const pointPx = z.tuple([z.number(), z.number()]);

/** Corners of the coupon in the upright picture, clockwise from its top left as the number reads. */
export const cornersPx = z.tuple([pointPx, pointPx, pointPx, pointPx]);

const polygonMm = z.array(z.tuple([z.number(), z.number()])).check(z.minLength(3), z.maxLength(500));

export const couponSurfaces = ["dry and wiped", "wet", "oily", "dusty"] as const;
export const couponSurface = z.enum(couponSurfaces);
export type CouponSurface = (typeof couponSurfaces)[number];

/** One check of the quality gate: what was measured, against what, and what to do about it. */
export const gateCheck = z.strictObject({
  what: z.enum(gateNames),
  measured: z.number(),
  limit: z.number(),
  bound: z.enum(["least", "most"]),
  unit: z.string(),
  passes: z.boolean(),
  says: z.string(),
  advice: z.string(),
});

/** A photograph that is kept and not rated: why, what was measured, and the corners found, where any were. */
export const photoRefusal = z.strictObject({
  refused: z.literal(true),
  why: z.enum(["surface", "no card", "no coupon", "white place", "gate"]),
  sentence: z.string(),
  cornersPx: z.nullable(cornersPx),
  checks: z.array(gateCheck),
});
export type PhotoRefusal = z.infer<typeof photoRefusal>;

/** What the card told of the coupon. */
export const foundByCard = z.strictObject({
  name: z.enum(cardNames),
  printScale: z.number(),
  couponMm: z.strictObject({ lengthMm: z.number(), widthMm: z.number() }),
  confidence: z.number(),
});
export type FoundByCard = z.infer<typeof foundByCard>;

/** What told the colour of the light: the card, a white or grey place (how coloured it read, C*ab), or nothing; then, where the reading hangs on it, a warning. */
export const knownLight = z.discriminatedUnion("by", [
  z.strictObject({ by: z.literal("card") }),
  z.strictObject({ by: z.literal("white place"), castChroma: z.number() }),
  z.strictObject({ by: z.literal("nothing"), warning: z.nullable(z.string()) }),
]);
export type KnownLight = z.infer<typeof knownLight>;

/** Rust spots of the face: how many, by size class, and where the largest are. */
export const spotReport = z.strictObject({
  count: z.int(),
  byClass: z.array(z.strictObject({ fromMm: z.number(), count: z.int() })),
  largest: z.array(z.strictObject({ xMm: z.number(), yMm: z.number(), diameterMm: z.number() })),
});

/** A shop's own rust model by name and version. */
export const shopModelName = z.strictObject({
  name: z.string().check(z.trim(), z.minLength(1), z.maxLength(100)),
  version: z.int().check(z.minimum(1)),
});
export type ShopModelName = z.infer<typeof shopModelName>;

/** How a photograph is to be measured. lengthMm runs along the first side (corner 1 to 2). */
export const measurementRequest = z.strictObject({
  id: z.uuid(),
  photo: contentHash,
  /** Null: the measuring card in the picture shows where the coupon lies. */
  cornersPx: z.nullable(cornersPx),
  /** Something white or grey in the upright picture: it tells the colour of the light where no card is in sight. */
  neutralPx: z.optional(pointPx),
  sizeMm: z.strictObject({ lengthMm: z.number().check(z.positive()), widthMm: z.number().check(z.positive()) }),
  edgeBandMm: z.number().check(z.minimum(0)),
  /** How the coupon was when it was photographed; left out where nobody was asked. Only a dry, wiped one is rated. */
  surface: z.optional(couponSurface),
  /** A coupon's top lies that much above the card, and so nearer to the camera. */
  thicknessMm: z.optional(z.number().check(z.positive(), z.maximum(200))),
  /** Not judged: holes, stamp, wires, labels; in mm from the coupon's top left. */
  hiddenMm: z.optional(z.array(polygonMm).check(z.maxLength(100))),
  /** The face of a coupon that is no rectangle; all outside is left out. */
  outlineMm: z.optional(polygonMm),
  /** Where it hung or touched. */
  contactsMm: z.optional(
    z
      .array(z.strictObject({ xMm: z.number(), yMm: z.number(), radiusMm: z.number().check(z.positive()) }))
      .check(z.maxLength(50)),
  ),
  /** Rate by this model of the shop; left out: by the one that comes with the program. */
  shopModel: z.optional(shopModelName),
  /** Measurement of the same face before anything happened to it, by the card: what came since then is a second number. */
  first: z.optional(z.uuid()),
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
  // From here on: left out in measurements of earlier versions.
  /** Degree Ri of ISO 4628-3, and the letter of D610's distribution where its grade takes one. */
  iso4628: z.optional(z.int()),
  d610Letter: z.optional(z.nullable(z.enum(["S", "G", "P", "H"]))),
  spots: z.optional(spotReport),
  /** Rusted % round each contact point of the request, in its order. */
  contactPercents: z.optional(z.array(z.nullable(z.number()))),
  /** Corners that were used, what the card told (null: set by hand), and the gate's checks. */
  cornersPx: z.optional(cornersPx),
  card: z.optional(z.nullable(foundByCard)),
  gate: z.optional(z.array(gateCheck)),
  light: z.optional(knownLight),
  /** Where the face's percentage may lie, by the model's own doubt; and the D610 grades at its two ends. */
  rustPercentInterval: z.optional(z.strictObject({ low: z.number(), high: z.number(), confidencePercent: z.number() })),
  gradeSpan: z.optional(z.strictObject({ best: z.int(), worst: z.int() })),
  /** Rust that came since the first photograph; it stands beside the percentage, never instead of it. */
  rustSince: z.optional(
    z.strictObject({
      first: z.uuid(),
      rustedPercent: z.number(),
      edgePercent: z.nullable(z.number()),
      d610: z.int(),
      /** The rectified picture with only that outlined (JPEG). */
      overlay: z.optional(contentHash),
    }),
  ),
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
  /** Set where the photograph was found not good enough to be rated. */
  refusal: z.nullable(photoRefusal),
});
export type Job = z.infer<typeof job>;
