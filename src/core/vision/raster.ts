/**
 * Pictures and masks as plain typed arrays: what a decoder hands in and what the methods of this room pass on.
 *
 * Units    pixels; sRGB bytes
 * Source   the project's own form
 * Status   common practice
 */
import { InputError, requireWhole } from "../input-error.ts";

export type RgbImage = {
  widthPx: number;
  heightPx: number;
  /** sRGB, 8 bits, three bytes per pixel, row by row from the top left. */
  rgb: Uint8Array;
};

/** What a pixel of a coupon was found to be; the same bytes stand in the mask's PNG. */
export const marks = { notRust: 0, leftOut: 128, rust: 255 } as const;

export type RustMask = { widthPx: number; heightPx: number; marks: Uint8Array };

/** Refuses a picture whose array does not fit its size in pixels. */
export function requireRgbImage(argument: string, image: RgbImage): void {
  requireWhole(`${argument}.widthPx`, image.widthPx, 1);
  requireWhole(`${argument}.heightPx`, image.heightPx, 1);
  const bytes = image.widthPx * image.heightPx * 3;
  if (image.rgb.length !== bytes) throw new InputError(`${argument}.rgb`, image.rgb.length, `${bytes} bytes`);
}

/** Refuses two rasters of different size in pixels. */
export function requireSameSize(
  argument: string,
  raster: { widthPx: number; heightPx: number },
  as: { widthPx: number; heightPx: number },
): void {
  if (raster.widthPx !== as.widthPx || raster.heightPx !== as.heightPx)
    throw new InputError(
      argument,
      `${raster.widthPx} x ${raster.heightPx} px`,
      `the picture's size, ${as.widthPx} x ${as.heightPx} px`,
    );
}
