/**
 * A smaller copy of a picture: each new pixel is the mean of the old ones whose middle lies in it.
 *
 * Units    px; sRGB bytes
 * Source   mean over an area; in sRGB as stored, which for neighbouring pixels is within the noise of a camera
 * Status   common practice
 */
import { requireWhole } from "../input-error.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

/** The picture with at most `longestPx` on its longer side; one that is small enough comes back as it is. */
export function shrunk(image: RgbImage, longestPx: number): RgbImage {
  requireRgbImage("image", image);
  requireWhole("longestPx", longestPx, 1);
  const factor = longestPx / Math.max(image.widthPx, image.heightPx);
  if (factor >= 1) return image;
  const widthPx = Math.max(1, Math.round(image.widthPx * factor));
  const heightPx = Math.max(1, Math.round(image.heightPx * factor));
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  const columnOf = Uint32Array.from({ length: image.widthPx }, (_, x) =>
    Math.floor(((x + 0.5) * widthPx) / image.widthPx),
  );
  const sums = new Float64Array(widthPx * 4);
  for (let row = 0, y = 0; row < heightPx; row++) {
    sums.fill(0);
    for (; y < image.heightPx && Math.floor(((y + 0.5) * heightPx) / image.heightPx) === row; y++)
      for (let x = 0, from = y * image.widthPx * 3; x < image.widthPx; x++, from += 3) {
        const to = columnOf[x]! * 4;
        sums[to]! += image.rgb[from]!;
        sums[to + 1]! += image.rgb[from + 1]!;
        sums[to + 2]! += image.rgb[from + 2]!;
        sums[to + 3]!++;
      }
    for (let column = 0; column < widthPx; column++)
      for (let channel = 0; channel < 3; channel++)
        rgb[(row * widthPx + column) * 3 + channel] = sums[column * 4 + channel]! / sums[column * 4 + 3]! + 0.5;
  }
  return { widthPx, heightPx, rgb };
}
