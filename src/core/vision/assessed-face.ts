/**
 * Which part of a rectified coupon is its face and which its edge band, and how much of each is rusted.
 *
 * Units    mm, mm², % of area
 * Source   ISO 10289 lets edges be left out if reported; the band of 5 mm and counting by pixels are our own
 * Status   common practice
 */
import { InputError, requireNotNegative } from "../input-error.ts";
import { requireSize, type SizeMm } from "./coupon-plane.ts";
import { marks, type RustMask } from "./raster.ts";

/** First and past-the-last column and row of the face, px of the rectified coupon. All around it lies the edge band. */
export type FaceRectangle = { left: number; top: number; right: number; bottom: number };

export type RustedShares = {
  /** % of the face, left-out places not counted. */
  rustedPercent: number;
  /** % of the edge band; null when there is no band (or all of it is left out). */
  edgePercent: number | null;
  /** Face less what was left out, mm². */
  assessedAreaMm2: number;
};

/** The face within an edge band in mm. A pixel belongs to the side on which its centre lies. Refuses a band that leaves no face. */
export function faceRectangle(
  raster: { widthPx: number; heightPx: number },
  size: SizeMm,
  edgeBandMm: number,
): FaceRectangle {
  requireSize(size);
  requireNotNegative("edgeBandMm", edgeBandMm);
  if (2 * edgeBandMm >= Math.min(size.lengthMm, size.widthMm))
    throw new InputError(
      "edgeBandMm",
      edgeBandMm,
      `less than half of the shorter side, ${Math.min(size.lengthMm, size.widthMm) / 2} mm`,
    );
  const left = Math.round((edgeBandMm / size.lengthMm) * raster.widthPx);
  const top = Math.round((edgeBandMm / size.widthMm) * raster.heightPx);
  const face = { left, top, right: raster.widthPx - left, bottom: raster.heightPx - top };
  if (face.right <= face.left || face.bottom <= face.top)
    throw new InputError("edgeBandMm", edgeBandMm, "a band that leaves at least one pixel of face");
  return face;
}

/** Rusted percent of face and edge band by counting pixels. Refuses a mask whose whole face is left out. */
export function rustedShares(mask: RustMask, face: FaceRectangle, size: SizeMm, edgeBandMm: number): RustedShares {
  const onFace = { rust: 0, counted: 0 };
  const onEdge = { rust: 0, counted: 0 };
  for (let row = 0; row < mask.heightPx; row++) {
    const whole = mask.marks.subarray(row * mask.widthPx, (row + 1) * mask.widthPx);
    if (row < face.top || row >= face.bottom) count(whole, onEdge);
    else {
      count(whole.subarray(0, face.left), onEdge);
      count(whole.subarray(face.left, face.right), onFace);
      count(whole.subarray(face.right), onEdge);
    }
  }
  if (onFace.counted === 0) throw new InputError("mask", "a face that is wholly left out", "some face left to assess");
  const facePixels = (face.right - face.left) * (face.bottom - face.top);
  const faceAreaMm2 = (size.lengthMm - 2 * edgeBandMm) * (size.widthMm - 2 * edgeBandMm);
  return {
    rustedPercent: (100 * onFace.rust) / onFace.counted,
    edgePercent: onEdge.counted === 0 ? null : (100 * onEdge.rust) / onEdge.counted,
    assessedAreaMm2: (faceAreaMm2 * onFace.counted) / facePixels,
  };
}

function count(places: Uint8Array, part: { rust: number; counted: number }): void {
  let [rust, leftOut] = [0, 0];
  for (let at = 0; at < places.length; at++) {
    if (places[at] === marks.rust) rust++;
    else if (places[at] === marks.leftOut) leftOut++;
  }
  part.rust += rust;
  part.counted += places.length - leftOut;
}
