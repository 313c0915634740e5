/**
 * A coupon's picture with its blotches outlined.
 *
 * Units    px; sRGB bytes
 * Source   our own
 * Status   common practice
 */
import type { FaceRectangle } from "./assessed-face.ts";
import type { FaceColour } from "./finish-colour.ts";
import type { RgbImage } from "./raster.ts";

const outline = [255, 214, 0] as const;

/** A new picture; the line is drawn inside the blotch and is seen on dark and light steel. */
export function blotchPicture(image: RgbImage, face: FaceRectangle, { cells }: FaceColour): RgbImage {
  const { columns, rows, blotchOf } = cells;
  const { widthPx, heightPx } = image;
  const rgb = Uint8Array.from(image.rgb);
  const blotchAt = (x: number, y: number) => {
    if (x < face.left || x >= face.right || y < face.top || y >= face.bottom) return -1;
    const column = Math.min(columns - 1, Math.floor(((x - face.left) / (face.right - face.left)) * columns));
    const row = Math.min(rows - 1, Math.floor(((y - face.top) / (face.bottom - face.top)) * rows));
    return blotchOf[row * columns + column]!;
  };
  const line = Math.max(1, Math.round(widthPx / 300));
  const steps = [
    [-line, 0],
    [line, 0],
    [0, -line],
    [0, line],
  ] as const;
  for (let y = face.top; y < face.bottom; y++)
    for (let x = face.left; x < face.right; x++) {
      const own = blotchAt(x, y);
      if (own === -1 || steps.every(([dx, dy]) => blotchAt(x + dx, y + dy) === own)) continue;
      rgb.set(outline, (y * widthPx + x) * 3);
    }
  return { widthPx, heightPx, rgb };
}
