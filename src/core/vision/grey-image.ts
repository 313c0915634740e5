/**
 * A reduced grey copy in which markers are looked for, and the light of the full picture at any point of it.
 *
 * Units    px; sRGB bytes; light from 0 to 1
 * Source   mean of square blocks; weights of luminance from IEC 61966-2-1
 * Status   computed
 */
import type { Point } from "./homography.ts";
import { linearLight } from "./lab-image.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

export type GreyImage = { widthPx: number; heightPx: number; grey: Float32Array };

/** Grey in sRGB steps 0 to 255, in blocks of `factor` px, so that the longer side has at most `mostPx`. */
export function reducedGrey(image: RgbImage, mostPx: number): { image: GreyImage; factor: number } {
  requireRgbImage("image", image);
  const factor = Math.max(1, Math.ceil(Math.max(image.widthPx, image.heightPx) / mostPx));
  const widthPx = Math.floor(image.widthPx / factor);
  const heightPx = Math.floor(image.heightPx / factor);
  const grey = new Float32Array(widthPx * heightPx);
  const { rgb } = image;
  for (let row = 0; row < heightPx * factor; row++) {
    let byte = row * image.widthPx * 3;
    const start = Math.floor(row / factor) * widthPx;
    for (let column = 0; column < widthPx; column++) {
      let red = 0;
      let green = 0;
      let blue = 0;
      for (let within = 0; within < factor; within++, byte += 3) {
        red += rgb[byte]!;
        green += rgb[byte + 1]!;
        blue += rgb[byte + 2]!;
      }
      grey[start + column]! += 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    }
  }
  const share = 1 / (factor * factor);
  for (let at = 0; at < grey.length; at++) grey[at]! *= share;
  return { image: { widthPx, heightPx, grey }, factor };
}

/** Luminance, 0 to 1, of the full picture at a point in px, between its four neighbours; beyond the rim, that of the rim. */
export function lightAt(image: RgbImage, [px, py]: Point): number {
  const x = Math.min(image.widthPx - 1, Math.max(0, px - 0.5));
  const y = Math.min(image.heightPx - 1, Math.max(0, py - 0.5));
  const left = Math.floor(x);
  const top = Math.floor(y);
  const right = Math.min(image.widthPx - 1, left + 1);
  const bottom = Math.min(image.heightPx - 1, top + 1);
  const shareX = x - left;
  const shareY = y - top;
  return (
    (pixelLight(image, left, top) * (1 - shareX) + pixelLight(image, right, top) * shareX) * (1 - shareY) +
    (pixelLight(image, left, bottom) * (1 - shareX) + pixelLight(image, right, bottom) * shareX) * shareY
  );
}

function pixelLight({ widthPx, rgb }: RgbImage, column: number, row: number): number {
  const byte = (row * widthPx + column) * 3;
  return (
    0.2126 * linearLight[rgb[byte]!]! + 0.7152 * linearLight[rgb[byte + 1]!]! + 0.0722 * linearLight[rgb[byte + 2]!]!
  );
}
