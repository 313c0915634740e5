/**
 * Whether a reading hangs on a light of which nothing tells the colour: no card, no white place pointed at, and no grey on the face itself.
 *
 * Steel and phosphate are grey. Where a part of the face reads grey, the light is neutral. Where none does, rust covers nearly all of it or the
 * light is coloured; the model then knows little, and its interval says so.
 *
 * Units    % of the face; a*b* chroma
 * Source   our own; chosen on rendered coupons (docs/photo-measurement.md)
 * Status   computed
 * Holds    on bare, phosphated, oiled or waxed steel; a coloured finish has no grey in any light
 */
import type { FaceRectangle } from "./assessed-face.ts";
import { labImage } from "./lab-image.ts";
import type { RgbImage } from "./raster.ts";
import { shrunk } from "./shrink.ts";

/** Grey is of no more than this chroma; a face with less than this share of it shows none. The same as `rust-by-model.ts` asks of a neutral light. */
const grey = { mostChroma: 4, leastShare: 0.1 };
/** Readings that were off by a grade and more had wider intervals than this, percentage points. */
const narrowPoints = 12;
/** Small enough that the mean of its pixels drowns a camera's noise. */
const longestPx = 300;

/** A sentence to stand beside the percentage, or null where the light changes nothing. `interval`: where the percentage may lie, %. */
export function unknownLightWarning(
  image: RgbImage,
  face: FaceRectangle,
  interval: { low: number; high: number },
): string | null {
  if (interval.high - interval.low <= narrowPoints || greyShare(image, face) >= grey.leastShare) return null;
  return "Nothing in this picture tells the colour of its light, and no part of the face is grey: rust covers nearly all of it, or the light is coloured and the percentage may be far off. Photograph it on the card, or set the corners again and point at something white or grey.";
}

function greyShare(image: RgbImage, face: FaceRectangle): number {
  const small = shrunk(image, longestPx);
  const { a, b } = labImage(small);
  const at = (px: number) => Math.round((px * small.widthPx) / image.widthPx);
  const [left, right, top, bottom] = [at(face.left), at(face.right), at(face.top), at(face.bottom)];
  let found = 0;
  for (let row = top; row < bottom; row++)
    for (let place = row * small.widthPx + left; place < row * small.widthPx + right; place++)
      if (a[place]! ** 2 + b[place]! ** 2 <= grey.mostChroma ** 2) found++;
  return found / ((right - left) * (bottom - top));
}
