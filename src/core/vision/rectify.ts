/**
 * The coupon seen square on: perspective taken out, at one scale in px per mm.
 *
 * Units    px, mm, px per mm
 * Source   bilinear sampling under the perspective of the four corners; limits of scale are our own
 * Status   common practice
 */
import { InputError } from "../input-error.ts";
import { type CornersPx, perspectiveOf, pxPerMmInPicture, requireSize, type SizeMm } from "./coupon-plane.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

/** Our own limits. Coarser, a spot of 0.01 % of a small face is lost in one pixel; finer, rust is not told any better. */
const coarsestPxPerMm = 2;
export const finestPxPerMm = 10;
const mostPixels = 1_500_000;

export type RectifiedCoupon = { image: RgbImage; pxPerMm: number };

/**
 * The coupon between four corners, sampled bilinearly. Scale in px per mm: the picture's own, at most 10, at most 1.5 million pixels.
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
  return { image: { widthPx, heightPx, rgb: sampled(photo, perspective, widthPx, heightPx) }, pxPerMm };
}

function sampled(photo: RgbImage, p: ReturnType<typeof perspectiveOf>, widthPx: number, heightPx: number): Uint8Array {
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  const { rgb: from, widthPx: photoWidth } = photo;
  const lastX = photoWidth - 1;
  const lastY = photo.heightPx - 1;
  const rowBytes = photoWidth * 3;
  let out = 0;
  for (let row = 0; row < heightPx; row++) {
    const v = (row + 0.5) / heightPx;
    for (let column = 0; column < widthPx; column++) {
      const u = (column + 0.5) / widthPx;
      const w = 1 / (p.g * u + p.h * v + 1);
      const x = Math.min(lastX, Math.max(0, (p.a * u + p.b * v + p.c) * w - 0.5));
      const y = Math.min(lastY, Math.max(0, (p.d * u + p.e * v + p.f) * w - 0.5));
      const left = x | 0;
      const top = y | 0;
      const shareX = x - left;
      const shareY = y - top;
      const at = top * rowBytes + left * 3;
      const right = left < lastX ? 3 : 0;
      const below = at + (top < lastY ? rowBytes : 0);
      for (let channel = 0; channel < 3; channel++) {
        const upper = from[at + channel]! * (1 - shareX) + from[at + right + channel]! * shareX;
        const lower = from[below + channel]! * (1 - shareX) + from[below + right + channel]! * shareX;
        rgb[out++] = upper * (1 - shareY) + lower * shareY + 0.5;
      }
    }
  }
  return rgb;
}
