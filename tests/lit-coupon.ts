/** A rendered picture seen in coloured light, and with a sheet of white paper beside its coupon. Invented. */
import { seededRandom } from "../src/core/numeric/random.ts";
import { linearLight } from "../src/core/vision/lab-image.ts";
import type { RgbImage } from "../src/core/vision/raster.ts";
import { srgbByteOf } from "../src/core/vision/srgb-byte.ts";

/** Factors on red, green and blue light. */
export type Light = readonly [number, number, number];

export function inLight<Picture extends RgbImage>(picture: Picture, light: Light): Picture {
  const bytes = light.map((factor) => Uint8Array.from(linearLight, (one) => Math.round(srgbByteOf(one * factor))));
  return { ...picture, rgb: picture.rgb.map((byte, at) => bytes[at % 3]![byte]!) };
}

/** Middle of the paper: at the bottom left, where no coupon of `renderLook` reaches. */
export const paperPx = ({ widthPx, heightPx }: RgbImage): [number, number] => [0.03 * widthPx, 0.94 * heightPx];

/** The paper is a twentieth of the picture wide, not quite white, with a camera's noise. */
export function withPaper<Picture extends RgbImage>(picture: Picture): Picture {
  const { widthPx, heightPx } = picture;
  const rgb = picture.rgb.slice();
  const random = seededRandom(1);
  const [x, y] = paperPx(picture);
  const half = widthPx / 40;
  for (let row = Math.ceil(y - half); row < Math.min(heightPx, y + half); row++)
    for (let column = Math.ceil(x - half); column < x + half; column++)
      for (let channel = 0; channel < 3; channel++) rgb[3 * (row * widthPx + column) + channel] = 210 + random.below(9);
  return { ...picture, rgb };
}
