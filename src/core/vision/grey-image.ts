/**
 * A reduced grey copy in which markers are looked for, and the light of the full picture at any point of it.
 *
 * Units    px; sRGB bytes; light from 0 to 1
 * Source   our own; weights of luminance from IEC 61966-2-1
 * Status   computed
 */
import { linearLight } from "./lab-image.ts";
import { addressOf, inRoom, kept, lentBytes, pixelLoops } from "./pixel-loops.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

/** Steps of green in sRGB, 0 to 255: black print on white paper is as clear in it as in all three channels together. */
export type GreyImage = { widthPx: number; heightPx: number; grey: Uint8Array };

/** A copy in blocks of `factor` px, so that the longer side has at most `mostPx`; each the mean of its block's four corner pixels. */
export function reducedGrey(image: RgbImage, mostPx: number): { image: GreyImage; factor: number } {
  requireRgbImage("image", image);
  const factor = Math.max(1, Math.ceil(Math.max(image.widthPx, image.heightPx) / mostPx));
  const widthPx = Math.floor(image.widthPx / factor);
  const heightPx = Math.floor(image.heightPx / factor);
  return kept(() => {
    const grey = lentBytes(widthPx * heightPx);
    inRoom(() =>
      pixelLoops().reducedGrey(addressOf(image.rgb), image.widthPx, factor, widthPx, heightPx, grey.byteOffset),
    );
    return { image: { widthPx, heightPx, grey }, factor };
  });
}

/**
 * Luminance, 0 to 1, of the full picture at points in px, between the four neighbours of each; beyond the rim, that of the rim.
 * Many at once, into `light`: a number handed back from a call costs more than what is worked out for it.
 */
export function readLight(
  { widthPx, heightPx, rgb }: RgbImage,
  xPx: Float64Array,
  yPx: Float64Array,
  light: Float64Array,
): void {
  for (let at = 0; at < light.length; at++) {
    const x = Math.min(widthPx - 1, Math.max(0, xPx[at]! - 0.5));
    const y = Math.min(heightPx - 1, Math.max(0, yPx[at]! - 0.5));
    const left = Math.floor(x);
    const top = Math.floor(y);
    const shareX = x - left;
    const shareY = y - top;
    const a = 3 * (top * widthPx + left);
    const b = left + 1 < widthPx ? a + 3 : a;
    const down = top + 1 < heightPx ? 3 * widthPx : 0;
    const upper = pixelLight(rgb, a) * (1 - shareX) + pixelLight(rgb, b) * shareX;
    const lower = pixelLight(rgb, a + down) * (1 - shareX) + pixelLight(rgb, b + down) * shareX;
    light[at] = upper * (1 - shareY) + lower * shareY;
  }
}

function pixelLight(rgb: Uint8Array, byte: number): number {
  return (
    0.2126 * linearLight[rgb[byte]!]! + 0.7152 * linearLight[rgb[byte + 1]!]! + 0.0722 * linearLight[rgb[byte + 2]!]!
  );
}
