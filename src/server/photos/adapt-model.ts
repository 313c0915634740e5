/** Strokes on a photograph that was measured to a model of the shop's own, and what that model finds there. */
import sharp from "sharp";
import type { BrushStroke, MeasurementRequest } from "../../api/photo.ts";
import { InputError } from "../../core/input-error.ts";
import { d610Grade } from "../../core/rating/d610-grade.ts";
import { adaptedModel } from "../../core/vision/adapted-model.ts";
import { faceRectangle, rustedShares } from "../../core/vision/assessed-face.ts";
import { overlayPicture } from "../../core/vision/overlay.ts";
import { rustByModel } from "../../core/vision/rust-by-model.ts";
import type { RustModel } from "../../core/vision/rust-model.ts";
import { judgedPart } from "./measure-photo.ts";
import { decodePhoto } from "./read-photo.ts";

export type AdaptTask = {
  /** The photograph seen square on, and how it was measured. */
  rectifiedPath: string;
  pxPerMm: number;
  request: MeasurementRequest;
  strokes: readonly BrushStroke[];
  from: RustModel;
};

export type AdaptedPhoto = {
  model: RustModel;
  rustedPercent: number;
  edgePercent: number | null;
  d610: number;
  overlayJpeg: Uint8Array;
};

/** Null where the strokes teach nothing: one kind lies wholly beside the coupon. The model still bears the name of the one it came from. */
export async function adaptToStrokes({
  rectifiedPath,
  pxPerMm,
  request,
  strokes,
  from,
}: AdaptTask): Promise<AdaptedPhoto | null> {
  const image = await decodePhoto(rectifiedPath);
  const { sizeMm, edgeBandMm } = request;
  const model = fitted(from, { image, sizeMm, strokes });
  if (!model) return null;
  const mask = judgedPart(rustByModel(image, null, pxPerMm, model), request);
  const face = faceRectangle(image, sizeMm, edgeBandMm);
  const { rustedPercent, edgePercent } = rustedShares(mask, face, sizeMm, edgeBandMm);
  const drawn = overlayPicture(image, mask, face);
  const overlayJpeg = await sharp(drawn.rgb, { raw: { width: drawn.widthPx, height: drawn.heightPx, channels: 3 } })
    .jpeg({ quality: 85 })
    .toBuffer();
  return { model, rustedPercent, edgePercent, d610: d610Grade(rustedPercent), overlayJpeg };
}

function fitted(from: RustModel, marked: Parameters<typeof adaptedModel>[1][number]): RustModel | null {
  try {
    return adaptedModel(from, [marked], from.name);
  } catch (error) {
    if (error instanceof InputError && error.argument === "photos") return null;
    throw error;
  }
}
