/**
 * The cut region of a tape test seen square on, with a margin round it, in mm of the cut: the first corner is 0, 0.
 *
 * Units    mm of the cut, px of the picture
 * Source   mean of bilinear samples under the perspective of the corners
 * Status   computed
 */
import { InputError } from "../input-error.ts";
import { type CornersPx, pxPerMmInPicture, requireSize, type SizeMm } from "./coupon-plane.ts";
import { type Homography, homographyOf, mapped, type Point } from "./homography.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

/** Our own limits, px per mm. Coarser, cuts 1 mm apart run into each other; finer, the lens gives nothing more. */
export const tapeScale = { least: 8, most: 18 } as const;

export type TapeExtent = { leftMm: number; topMm: number; widthMm: number; heightMm: number };
export type TapeFrame = { image: RgbImage; extent: TapeExtent; pxPerMm: number };

/** The region with a margin of so many mm on each side. */
export const extentOf = (size: SizeMm, marginMm: number): TapeExtent => ({
  leftMm: -marginMm,
  topMm: -marginMm,
  widthMm: size.lengthMm + 2 * marginMm,
  heightMm: size.widthMm + 2 * marginMm,
});

/** From mm of the cut to px of the picture, by four corners clockwise. Refuses a cut that is too small in the picture. */
export function cutToPicture(photo: RgbImage, corners: CornersPx, size: SizeMm, argument: string): Homography {
  requireRgbImage(argument, photo);
  requireSize(size);
  const inPicture = pxPerMmInPicture(corners, size);
  if (inPicture < tapeScale.least)
    throw new InputError(
      argument,
      `${inPicture.toFixed(1)} px per mm of the cut`,
      `at least ${tapeScale.least} px per mm: photograph it from nearer`,
    );
  const { lengthMm, widthMm } = size;
  const square: Point[] = [
    [0, 0],
    [lengthMm, 0],
    [lengthMm, widthMm],
    [0, widthMm],
  ];
  return homographyOf(square, corners);
}

/** The extent sampled at a scale in px per mm, each pixel the mean of four places. Beyond the picture its rim goes on. */
export function tapeFrame(photo: RgbImage, toPicture: Homography, extent: TapeExtent, pxPerMm: number): TapeFrame {
  const widthPx = Math.round(extent.widthMm * pxPerMm);
  const heightPx = Math.round(extent.heightMm * pxPerMm);
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  const sum = [0, 0, 0];
  for (let row = 0, out = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++) {
      sum.fill(0);
      for (const down of [0.25, 0.75])
        for (const across of [0.25, 0.75]) {
          const place = mapped(toPicture, [
            extent.leftMm + (column + across) / pxPerMm,
            extent.topMm + (row + down) / pxPerMm,
          ]);
          addSample(photo, place, sum);
        }
      for (let channel = 0; channel < 3; channel++) rgb[out++] = sum[channel]! / 4 + 0.5;
    }
  return { image: { widthPx, heightPx, rgb }, extent, pxPerMm };
}

function addSample({ rgb, widthPx, heightPx }: RgbImage, [px, py]: Point, sum: number[]): void {
  const x = Math.min(widthPx - 1, Math.max(0, px - 0.5));
  const y = Math.min(heightPx - 1, Math.max(0, py - 0.5));
  const left = Math.floor(x);
  const top = Math.floor(y);
  const shareX = x - left;
  const shareY = y - top;
  const at = (top * widthPx + left) * 3;
  const right = left < widthPx - 1 ? 3 : 0;
  const below = top < heightPx - 1 ? widthPx * 3 : 0;
  for (let channel = 0; channel < 3; channel++) {
    const upper = rgb[at + channel]! * (1 - shareX) + rgb[at + right + channel]! * shareX;
    const lower = rgb[at + below + channel]! * (1 - shareX) + rgb[at + below + right + channel]! * shareX;
    sum[channel]! += upper * (1 - shareY) + lower * shareY;
  }
}
