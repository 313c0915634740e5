/**
 * How far a photograph may be decoded smaller and still be measured as well: rust is looked at in 8 px per mm, a phone gives 15 to 40.
 *
 * Units    px, mm
 * Source   our own limits; corners and sides are found to a tenth of a pixel, so half the pixels cost a hundredth of a mm
 * Status   common practice
 */
import { type CornersPx, pxPerMmInPicture, type SizeMm } from "./coupon-plane.ts";

/** What JPEG decoders do on the way, without looking at every pixel. */
export type Shrink = 1 | 2 | 4 | 8;
const shrinks = [8, 4, 2] as const;

/** Least scale of the coupon after shrinking, px per mm. */
const leastPxPerMm = 7;
/** Least longer side of a picture in which the card says where the coupon lies, px: then the coupon takes up half of it, or less. */
const leastLongerSidePx = 2000;

/** `cornersPx`: the coupon's corners in px of the whole photograph; null where they are still to be found by the card. */
export function workingShrink(
  photo: { widthPx: number; heightPx: number },
  sizeMm: SizeMm,
  cornersPx: CornersPx | null,
): Shrink {
  const enough = (by: Shrink) =>
    cornersPx
      ? pxPerMmInPicture(cornersPx, sizeMm) >= by * leastPxPerMm
      : Math.max(photo.widthPx, photo.heightPx) >= by * leastLongerSidePx;
  return shrinks.find(enough) ?? 1;
}
