/**
 * The card's window seen square on, as light, at an even scale: where the coupon is looked for.
 *
 * Units    mm, px per mm; light 0 to 1 in three channels
 * Source   bilinear sampling under the card's map
 * Status   computed
 */
import type { Homography } from "./homography.ts";
import { linearLight } from "./lab-image.ts";
import type { RectangleMm } from "./measuring-card.ts";
import type { RgbImage } from "./raster.ts";

export type LightImage = {
  widthPx: number;
  heightPx: number;
  pxPerMm: number;
  /** Of its top left corner on the card, mm. */
  originMm: { xMm: number; yMm: number };
  /** Three values per pixel, 0 to 1. */
  light: Float32Array;
};

/** A rectangle of the card (mm) as light; nearest pixel, which is enough where a mean is taken or an edge is only looked for. */
export function windowImage(photo: RgbImage, toPicture: Homography, window: RectangleMm, pxPerMm: number): LightImage {
  const widthPx = Math.round(window.widthMm * pxPerMm);
  const heightPx = Math.round(window.heightMm * pxPerMm);
  const light = new Float32Array(widthPx * heightPx * 3);
  const lastX = photo.widthPx - 1;
  const lastY = photo.heightPx - 1;
  const [a, b, c, d, e, f, g, h, i] = toPicture;
  for (let row = 0, out = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++) {
      const xMm = window.xMm + (column + 0.5) / pxPerMm;
      const yMm = window.yMm + (row + 0.5) / pxPerMm;
      const w = 1 / (g * xMm + h * yMm + i);
      const left = Math.min(lastX, Math.max(0, Math.floor((a * xMm + b * yMm + c) * w)));
      const top = Math.min(lastY, Math.max(0, Math.floor((d * xMm + e * yMm + f) * w)));
      const byte = (top * photo.widthPx + left) * 3;
      light[out++] = linearLight[photo.rgb[byte]!]!;
      light[out++] = linearLight[photo.rgb[byte + 1]!]!;
      light[out++] = linearLight[photo.rgb[byte + 2]!]!;
    }
  return { widthPx, heightPx, pxPerMm, originMm: window, light };
}
