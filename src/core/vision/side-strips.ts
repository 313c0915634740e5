/**
 * The light in a strip along each side of a coupon, read from the picture itself: lines across the side, from the paper into the steel.
 *
 * Units    mm on the plane of the coupon's top; ln of the light
 * Source   our own
 * Status   computed
 */
import { readLight } from "./grey-image.ts";
import type { Homography, Point } from "./homography.ts";
import { linearLight } from "./lab-image.ts";
import type { RgbImage } from "./raster.ts";

/** A side as roughly known: from corner to corner, clockwise, so that the steel lies to the right of the way along. */
export type RoughSide = { from: Point; to: Point };

export type SideStrip = {
  middle: Point;
  /** Of length 1; inwards is at right angles to it, into the steel. */
  along: Point;
  inwards: Point;
  lengthMm: number;
  /** How far from the middle, along the side, each line across lies, mm. */
  linesAtMm: Float64Array;
  /** ln of the light, line after line; each begins `stripOutsideMm` outside of the rough side. */
  log: Float32Array;
  /** Hue at the same places: ln of blue over red. */
  hue: Float32Array;
};

/** How far inside (a shadow was taken for steel) and outside of the rough side the strip reaches, mm. */
const stripInsideMm = 8;
export const stripOutsideMm = 3;
export const stripStepMm = 0.1;
export const stripSteps = Math.round((stripInsideMm + stripOutsideMm) / stripStepMm) + 1;
const lines = 64;
/** Share of the side along which is looked: a rough corner may be off, and a cut corner is none. */
const usedShare = 0.88;
/** Darker than this makes no difference: an edge is a ratio, as strong in shade as in the sun. */
const leastLight = 0.01;
const logOfByte = Float32Array.from(linearLight, (light) => Math.log(leastLight + light));

/** The strip along one side (mm on the plane of the coupon's top): light and hue on 64 lines across it. */
export function sideStrip(photo: RgbImage, top: Homography, { from, to }: RoughSide): SideStrip {
  const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const along: Point = [(to[0] - from[0]) / lengthMm, (to[1] - from[1]) / lengthMm];
  const inwards: Point = [-along[1], along[0]];
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const linesAtMm = Float64Array.from(
    { length: lines },
    (_, line) => lengthMm * usedShare * ((line + 0.5) / lines - 0.5),
  );
  const strip = { middle, along, inwards, lengthMm, linesAtMm };
  return { ...strip, ...lightAndHue(photo, top, strip) };
}

function lightAndHue(
  photo: RgbImage,
  top: Homography,
  { middle, along, inwards, linesAtMm }: Pick<SideStrip, "middle" | "along" | "inwards" | "linesAtMm">,
): Pick<SideStrip, "log" | "hue"> {
  const log = new Float32Array(lines * stripSteps);
  const hue = new Float32Array(log.length);
  const [xPx, yPx, light] = [new Float64Array(stripSteps), new Float64Array(stripSteps), new Float64Array(stripSteps)];
  const [a, b, c, d, e, f, g, h, i] = top;
  for (let line = 0; line < lines; line++) {
    const fromX = middle[0] + linesAtMm[line]! * along[0];
    const fromY = middle[1] + linesAtMm[line]! * along[1];
    for (let step = 0; step < stripSteps; step++) {
      const t = step * stripStepMm - stripOutsideMm;
      const xMm = fromX + t * inwards[0];
      const yMm = fromY + t * inwards[1];
      const w = g * xMm + h * yMm + i;
      xPx[step] = (a * xMm + b * yMm + c) / w;
      yPx[step] = (d * xMm + e * yMm + f) / w;
    }
    readLight(photo, xPx, yPx, light);
    const start = line * stripSteps;
    for (let step = 0; step < stripSteps; step++) log[start + step] = Math.log(leastLight + light[step]!);
    readHue(photo, xPx, yPx, hue.subarray(start, start + stripSteps));
  }
  return { log, hue };
}

/** Of the nearest pixels: hue is only read as a mean along the side. */
function readHue({ widthPx, heightPx, rgb }: RgbImage, xPx: Float64Array, yPx: Float64Array, hue: Float32Array): void {
  for (let at = 0; at < hue.length; at++) {
    const column = Math.min(widthPx - 1, Math.max(0, Math.floor(xPx[at]!)));
    const row = Math.min(heightPx - 1, Math.max(0, Math.floor(yPx[at]!)));
    const byte = (row * widthPx + column) * 3;
    hue[at] = logOfByte[rgb[byte + 2]!]! - logOfByte[rgb[byte]!]!;
  }
}
