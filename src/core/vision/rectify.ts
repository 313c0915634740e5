/**
 * The coupon seen square on: perspective taken out, at one scale in px per mm.
 *
 * Units    px, mm, px per mm
 * Source   bilinear sampling under the perspective of the four corners; limits of scale are our own
 * Status   common practice
 */
import { InputError } from "../input-error.ts";
import { type CornersPx, perspectiveOf, pxPerMmInPicture, requireSize, type SizeMm } from "./coupon-plane.ts";
import { addressOf, inRoom, kept, lentBytes, pixelLoops } from "./pixel-loops.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

/** Our own limits. Coarser, a spot of 0.01 % of a small face is lost in one pixel; finer, rust is not told any better. */
const coarsestPxPerMm = 2;
const finestPxPerMm = 8;
const mostPixels = 1_500_000;

export type RectifiedCoupon = { image: RgbImage; pxPerMm: number };

/**
 * The coupon between four corners, sampled bilinearly. Scale in px per mm: the picture's own, at most 8, at most 1.5 million pixels.
 * Refuses corners outside the picture and a coupon that is smaller in it than 2 px per mm.
 */
export function rectify(photo: RgbImage, corners: CornersPx, size: SizeMm): RectifiedCoupon {
  requireRgbImage("photo", photo);
  requireSize(size);
  const perspective = perspectiveOf(corners);
  for (const [at, [x, y]] of corners.entries())
    if (x < 0 || y < 0 || x > photo.widthPx || y > photo.heightPx)
      throw new InputError(
        `cornersPx[${at}]`,
        [x, y],
        `a point inside the picture of ${photo.widthPx} x ${photo.heightPx} px`,
      );
  const inPicture = pxPerMmInPicture(corners, size);
  if (inPicture < coarsestPxPerMm)
    throw new InputError(
      "cornersPx",
      `${inPicture.toFixed(2)} px per mm of the coupon`,
      `at least ${coarsestPxPerMm} px per mm: photograph it from nearer, or check the size in mm`,
    );
  const pxPerMm = Math.min(inPicture, finestPxPerMm, Math.sqrt(mostPixels / (size.lengthMm * size.widthMm)));
  const widthPx = Math.max(1, Math.round(size.lengthMm * pxPerMm));
  const heightPx = Math.max(1, Math.round(size.widthMm * pxPerMm));
  const { a, b, c, d, e, f, g, h } = perspective;
  const around = rowsAround(photo, corners);
  // The loop sees the coupon's rows only: a photograph may be much larger.
  const moved = [a, b, c, d - g * around.top, e - h * around.top, f - around.top, g, h];
  return kept(() => {
    const rgb = lentBytes(widthPx * heightPx * 3);
    inRoom(() => {
      const perspectiveAt = addressOf(Float64Array.from(moved));
      const { widthPx: photoWidth } = photo;
      const from = addressOf(around.rgb);
      pixelLoops().straighten(from, photoWidth, around.rows, perspectiveAt, rgb.byteOffset, widthPx, heightPx);
    });
    return { image: { widthPx, heightPx, rgb }, pxPerMm };
  });
}

/** The rows of a photograph in which its corners lie, and one more on each side where there is one. */
function rowsAround({ widthPx, heightPx, rgb }: RgbImage, corners: CornersPx) {
  const places = corners.map(([, y]) => y);
  const top = Math.max(0, Math.floor(Math.min(...places)) - 1);
  const past = Math.min(heightPx, Math.ceil(Math.max(...places)) + 1);
  return { top, rows: past - top, rgb: rgb.subarray(top * widthPx * 3, past * widthPx * 3) };
}
