/** How strongly the lens enlarged, from the EXIF block: it tells how much nearer a coupon's top is than the card under it. */
import { usualFocalShare } from "../../core/vision/card-pose.ts";
import { exifNumber } from "./exif-block.ts";

const tagOfFocalLengthIn35mm = 0xa405;
/** Diagonal of the 35 mm frame. */
const frameDiagonalMm = 43.27;

/** In px of the picture; where the camera did not say, that of a phone's main camera. */
export function focalPxOf(exif: Buffer | undefined, size: { widthPx: number; heightPx: number }): number {
  const focalMm = exifNumber(exif, tagOfFocalLengthIn35mm);
  const share = focalMm === null || focalMm === 0 ? usualFocalShare : focalMm / frameDiagonalMm;
  return share * Math.hypot(size.widthPx, size.heightPx);
}
