/**
 * The picture with what was measured drawn over it: rust outlined, the face framed, left-out places hatched.
 *
 * Units    px; sRGB bytes
 * Source   our own
 * Status   common practice
 */
import type { FaceRectangle } from "./assessed-face.ts";
import { marks, type RgbImage, type RustMask, requireRgbImage, requireSameSize } from "./raster.ts";

/** Cyan is as far from rust as a screen can show; the frame alternates so that it stands on bright and dark steel. */
const outlineRgb = [0, 230, 255] as const;
const frameRgb = [
  [255, 255, 255],
  [20, 20, 20],
] as const;
const hatchRgb = [255, 255, 255] as const;

/** A new picture; nothing of the one handed in is changed. Lines grow with the picture so that they survive a small screen. */
export function overlayPicture(image: RgbImage, mask: RustMask, face: FaceRectangle): RgbImage {
  requireRgbImage("image", image);
  requireSameSize("mask", mask, image);
  const drawn = { ...image, rgb: image.rgb.slice() };
  const linePx = Math.max(1, Math.round(Math.max(image.widthPx, image.heightPx) / 700));
  hatchLeftOut(drawn, mask, linePx);
  outlineRust(drawn, mask, linePx);
  frameFace(drawn, face, linePx);
  return drawn;
}

function hatchLeftOut(drawn: RgbImage, mask: RustMask, linePx: number): void {
  for (let row = 0, at = 0; row < mask.heightPx; row++)
    for (let column = 0; column < mask.widthPx; column++, at++)
      if (mask.marks[at] === marks.leftOut && (row + column) % (linePx * 8) < linePx * 2)
        drawn.rgb.set(hatchRgb, at * 3);
}

/** The outline lies outside the rust, so that what was found stays visible under it. */
function outlineRust(drawn: RgbImage, mask: RustMask, linePx: number): void {
  const { widthPx, heightPx, marks: found } = mask;
  const outside = (at: number) => found[at] !== marks.rust;
  const paintAround = (row: number, column: number) => {
    for (let y = Math.max(0, row - linePx); y <= Math.min(heightPx - 1, row + linePx); y++)
      for (let x = Math.max(0, column - linePx); x <= Math.min(widthPx - 1, column + linePx); x++)
        if (outside(y * widthPx + x)) drawn.rgb.set(outlineRgb, (y * widthPx + x) * 3);
  };
  for (let row = 0, at = 0; row < heightPx; row++)
    for (let column = 0; column < widthPx; column++, at++)
      if (
        found[at] === marks.rust &&
        ((column > 0 && outside(at - 1)) ||
          (column < widthPx - 1 && outside(at + 1)) ||
          (row > 0 && outside(at - widthPx)) ||
          (row < heightPx - 1 && outside(at + widthPx)))
      )
        paintAround(row, column);
}

function frameFace(drawn: RgbImage, face: FaceRectangle, linePx: number): void {
  const dashPx = linePx * 6;
  const dash = (along: number) => frameRgb[Math.floor(along / dashPx) % 2 === 0 ? 0 : 1]!;
  const put = (column: number, row: number, along: number) =>
    drawn.rgb.set(dash(along), (row * drawn.widthPx + column) * 3);
  for (let thick = 0; thick < linePx; thick++) {
    for (let column = face.left; column < face.right; column++) {
      put(column, Math.min(face.top + thick, face.bottom - 1), column);
      put(column, Math.max(face.bottom - 1 - thick, face.top), column);
    }
    for (let row = face.top; row < face.bottom; row++) {
      put(Math.min(face.left + thick, face.right - 1), row, row);
      put(Math.max(face.right - 1 - thick, face.left), row, row);
    }
  }
}
