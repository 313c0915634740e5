/**
 * How far a photograph may be decoded smaller and still be measured as well: rust is looked at in 8 px per mm, a phone gives 15 to 40.
 *
 * Units    px, mm
 * Source   our own limits; corners and sides are found to a tenth of a pixel, so half the pixels cost a hundredth of a mm
 * Status   common practice
 */
import { type CornersPx, pxPerMmInPicture, type SizeMm } from "./coupon-plane.ts";

/** One part in so many of a photograph's sides: what a JPEG's decoder does by itself, with least work the smaller it is. */
const shrinks = [8, 4, 2, 1] as const;
export type Shrink = (typeof shrinks)[number];

/** Least scale of the coupon after shrinking, px per mm. */
const leastPxPerMm = 7;
/** Least longer side of a picture in which the card says where the coupon lies, px: as in the photographs on which that was tried. */
const leastLongerSidePx = 1300;

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
