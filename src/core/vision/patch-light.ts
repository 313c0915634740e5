/**
 * The light's colour from something white or grey that a hand pointed at, for photographs without a card; and a picture seen as in neutral light.
 *
 * A place knows only its own light, and nobody knows how white it is: so colour is balanced, brightness and unevenness stay as taken.
 *
 * Formula  each channel's median over a disc; gain = luminance of the medians / the channel's median
 * Units    px of the picture; light 0 to 1; sRGB bytes
 * Source   our own; what was pointed at is taken for neutral. Luminance: IEC 61966-2-1 (sRGB)
 * Status   common practice
 * Refuses  a place that is burnt out, dark, coloured or not of one colour, in words; a place outside the picture by name
 */
import { InputError } from "../input-error.ts";
import { castChromaOf } from "./card-light.ts";
import type { Point } from "./homography.ts";
import { linearLight } from "./lab-image.ts";
import { gateLimits } from "./photo-gate.ts";
import type { RgbImage } from "./raster.ts";
import { srgbByteOf } from "./srgb-byte.ts";

export type PatchLight = {
  /** What each channel is multiplied by, as light. */
  gains: readonly [number, number, number];
  /** How coloured the place was as taken, C*ab. */
  castChroma: number;
};

/** Half of the disc's width as a share of the picture's longer side: some 10 px where a photograph is looked at, less than a label. */
const radiusShare = 0.008;
const clippedByte = 252;
/** Darker, a step of a byte is more than 2 % of the light. */
const darkestByte = 60;
/** What is of one colour lies within this share of its median, as light, nearly everywhere: paper's grain does, print does not. */
const plain = { within: 0.25, leastShare: 0.85 };

/** The light at a place (px) of the picture, or a sentence why that place cannot tell it. */
export function patchLight(photo: RgbImage, place: Point): PatchLight | { unfit: string } {
  const [x, y] = place;
  if (!(x >= 0 && y >= 0 && x <= photo.widthPx && y <= photo.heightPx))
    throw new InputError(
      "neutralPx",
      `${x}, ${y}`,
      `a place in the picture of ${photo.widthPx} x ${photo.heightPx} px`,
    );
  const channels = discAround(photo, place);
  const medians = channels.map(medianOf) as [number, number, number];
  const share = (holds: (at: number) => boolean) =>
    channels[1].reduce((count, _, at) => count + (holds(at) ? 1 : 0), 0) / channels[1].length;
  const clipped = share((at) => channels.some((bytes) => bytes[at]! >= clippedByte));
  if (100 * clipped > gateLimits.overexposure.most) return { unfit: sentences.burntOut };
  if (Math.max(...medians) < darkestByte) return { unfit: sentences.dark };
  const white = medians.map((byte) => linearLight[byte]!) as [number, number, number];
  const near = (byte: number) => Math.abs(linearLight[byte]! / white[1] - 1) <= plain.within;
  if (share((at) => near(channels[1][at]!)) < plain.leastShare) return { unfit: sentences.notPlain };
  const castChroma = castChromaOf(white);
  if (castChroma > gateLimits["colour cast"].most) return { unfit: sentences.coloured(castChroma) };
  const luminance = 0.2126 * white[0] + 0.7152 * white[1] + 0.0722 * white[2];
  return { gains: [luminance / white[0], luminance / white[1], luminance / white[2]], castChroma };
}

const elsewhere = "Point at another place that is white or grey, or measure without.";
const sentences = {
  burntOut: `What you pointed at as white is burnt out in this picture, so it tells nothing of the light. ${elsewhere}`,
  dark: `What you pointed at as white or grey is too dark in this picture to tell the light. ${elsewhere}`,
  notPlain: `What you pointed at as white is not of one colour there: print, a shadow or an edge lies in it. ${elsewhere}`,
  coloured: (chroma: number) =>
    `What you pointed at as white is coloured in this picture, by ${chroma.toFixed(0)} C*ab: it is no white or grey, or the light is too coloured to be taken out. ${elsewhere} In coloured light take the photograph again in daylight or under a white lamp.`,
};

/** Red, green and blue bytes of the disc. */
function discAround({ widthPx, heightPx, rgb }: RgbImage, [x, y]: Point): [number[], number[], number[]] {
  const radius = Math.max(2, radiusShare * Math.max(widthPx, heightPx));
  const channels: [number[], number[], number[]] = [[], [], []];
  const [top, bottom] = [Math.max(0, Math.floor(y - radius)), Math.min(heightPx - 1, Math.ceil(y + radius))];
  const [left, right] = [Math.max(0, Math.floor(x - radius)), Math.min(widthPx - 1, Math.ceil(x + radius))];
  for (let row = top; row <= bottom; row++)
    for (let column = left; column <= right; column++) {
      if (Math.hypot(column + 0.5 - x, row + 0.5 - y) > radius) continue;
      const from = 3 * (row * widthPx + column);
      for (const channel of [0, 1, 2] as const) channels[channel].push(rgb[from + channel]!);
    }
  return channels;
}

const medianOf = (bytes: readonly number[]) => [...bytes].sort((a, b) => a - b)[bytes.length >> 1]!;

/** The picture as in neutral light of the same brightness. A new picture. */
export function balancedByPatch({ widthPx, heightPx, rgb }: RgbImage, { gains }: PatchLight): RgbImage {
  const [red, green, blue] = gains.map((gain) =>
    Uint8Array.from(linearLight, (light) => Math.round(srgbByteOf(light * gain))),
  ) as [Uint8Array, Uint8Array, Uint8Array];
  const out = new Uint8Array(rgb.length);
  for (let byte = 0; byte < rgb.length; byte += 3) {
    out[byte] = red[rgb[byte]!]!;
    out[byte + 1] = green[rgb[byte + 1]!]!;
    out[byte + 2] = blue[rgb[byte + 2]!]!;
  }
  return { widthPx, heightPx, rgb: out };
}
