/**
 * How far a photograph may be decoded smaller and still be measured as well: rust is looked at in 8 px per mm, a phone gives 15 to 40.
 *
 * Units    px, mm
 * Source   our own limits; corners and sides are found to a tenth of a pixel, so half the pixels cost a hundredth of a mm
 * Status   common practice
 */
import { type CornersPx, pxPerMmInPicture, type SizeMm } from "./coupon-plane.ts";

/**
 * One part in so many of a photograph's sides. A JPEG's decoder leaves out most of its work from a third on, and more from a fifth and from a
 * ninth on (libjpeg by halves, and what is left by averaging); a half costs as much as all of it.
 */
const shrinks = [9, 6, 5, 4, 3, 2, 1] as const;
export type Shrink = (typeof shrinks)[number];

/** Least scale of the coupon after shrinking, px per mm. */
const leastPxPerMm = 7;
/** Least longer side of a picture in which the card says where the coupon lies, px: as in the photographs on which that was tried. */
const leastLongerSidePx = 1300;

/** Least longer side of the copy that is decoded beside the search, px: a card over half of it has its coupon in 7 px per mm. */
const leastLongerSideBesidePx = 1900;

/** For a copy in which rust can be read where the picture that is searched for the card turns out too small. */
export function shrinkBeside({ widthPx, heightPx }: { widthPx: number; heightPx: number }): Shrink {
  return shrinks.find((by) => Math.max(widthPx, heightPx) >= by * leastLongerSideBesidePx) ?? 1;
}

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
