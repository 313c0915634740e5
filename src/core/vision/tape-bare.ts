/**
 * Where paint is missing in a frame: the light is evened out by the paint itself, then what is more than half way from the
 * paint's colour to the local colour of what lies bare counts as missing.
 *
 * Half way keeps areas true under blur. The paint is what lies round the cut region: most of it must have stayed.
 *
 * Units    mm, CIELAB
 * Source   our own
 * Status   computed
 */
import { solveLinear } from "../numeric/solve-linear.ts";
import { boxMean } from "./box-mean.ts";
import { labImage, linearLight } from "./lab-image.ts";
import type { RgbImage } from "./raster.ts";
import { srgbByteOf } from "./srgb-byte.ts";
import type { TapeFrame } from "./tape-frame.ts";

/** Distance in colour of each pixel from the paint, CIELAB (1976), and its usual size on paint. */
export type PaintDistance = {
  distance: Float32Array;
  onPaint: number;
  /** Red, green and blue light (linear, 0 to 1) less the paint's: light of two surfaces in one pixel adds up, colour does not. */
  offPaint: [Float32Array, Float32Array, Float32Array];
};

/** `round`: 1 where paint is expected to have stayed (the rim of the frame, no cuts). */
export function paintDistance(frame: TapeFrame, round: Uint8Array): PaintDistance {
  const even = evened(frame.image, round);
  const lab = labImage(even);
  const { widthPx, heightPx } = even;
  const smooth = (plane: Float32Array) => boxMean(plane, widthPx, heightPx, 1);
  const planes = [smooth(lab.lightness), smooth(lab.a), smooth(lab.b)];
  const paint = planes.map((plane) => medianOf(plane.filter((_, at) => round[at] === 1)));
  const distance = Float32Array.from(planes[0]!, (_, at) =>
    Math.hypot(...planes.map((plane, channel) => plane[at]! - paint[channel]!)),
  );
  const offPaint = [0, 1, 2].map((channel) => {
    const light = smooth(Float32Array.from(round, (_, at) => linearLight[even.rgb[at * 3 + channel]!]!));
    const ofPaint = medianOf(light.filter((_, at) => round[at] === 1));
    return light.map((value) => value - ofPaint);
  }) as PaintDistance["offPaint"];
  return { offPaint, distance, onPaint: medianOf(distance.filter((_, at) => round[at] === 1)) };
}

/** Below this distance nobody would call it another surface; and so many times what the paint itself spreads. */
const leastSeen = 7;
const timesPaint = 3.5;
const levelRadiusMm = 0.7;

/**
 * 1 where paint is missing. `share`: how far from paint to bare a pixel must be, 0.5 for the truest area. `strips`: 1 in the
 * cuts, whose bright scratches say nothing of what lies bare beside them.
 */
export function barePixels(
  frame: TapeFrame,
  { distance, onPaint }: PaintDistance,
  { share, strips }: { share: number; strips: Uint8Array },
): Uint8Array {
  const { widthPx, heightPx } = frame.image;
  const seen = Math.max(leastSeen, timesPaint * onPaint);
  const seeds = Float32Array.from(distance, (value, at) => (value > seen && strips[at] === 0 ? 1 : 0));
  const radius = Math.round(levelRadiusMm * frame.pxPerMm);
  const count = boxMean(seeds, widthPx, heightPx, radius);
  const level = boxMean(
    distance.map((value, at) => value * seeds[at]!),
    widthPx,
    heightPx,
    radius,
  );
  const raw = Float32Array.from(distance, (value, at) =>
    count[at]! > 0 && value > Math.max(0.7 * seen, (share * level[at]!) / count[at]!) ? 1 : 0,
  );
  // Specks of one pixel, and the pores of brushed steel, follow their neighbours.
  return Uint8Array.from(boxMean(raw, widthPx, heightPx, 1), (value) => (value > 0.5 ? 1 : 0));
}

const terms = (x: number, y: number) => [1, x, y, x * x, x * y, y * y];

/** The picture with its paint in even light: a quadratic in the logarithm of light, fitted to the paint and refitted without strays. */
function evened({ widthPx, heightPx, rgb }: RgbImage, round: Uint8Array): RgbImage {
  const out = new Uint8Array(rgb.length);
  const place = (at: number): [number, number] => [
    (2 * (at % widthPx)) / widthPx - 1,
    (2 * Math.floor(at / widthPx)) / heightPx - 1,
  ];
  const logOf = (at: number, channel: number) => Math.log(linearLight[rgb[at * 3 + channel]!]! + 0.004);
  const chosen: number[] = [];
  for (let at = 0; at < round.length; at += 3) if (round[at] === 1) chosen.push(at);
  const fields = [0, 1, 2].map((channel) => {
    const values = chosen.map((at) => logOf(at, channel));
    let weights = values.map(() => 1);
    let field: number[] = [];
    for (let pass = 0; pass < 5; pass++) {
      field = fitted(chosen, values, weights, place);
      const off = values.map((value, at) => Math.abs(value - fieldAt(field, place(chosen[at]!))));
      const usual = Math.max(1e-3, medianOf(Float32Array.from(off)));
      weights = off.map((one) => (one < 4.5 * usual ? (1 - (one / (4.5 * usual)) ** 2) ** 2 : 0));
    }
    return field;
  });
  const middle = fields.map((field) => fieldAt(field, [0, 0]));
  for (let at = 0; at < round.length; at++) {
    const here = place(at);
    for (let channel = 0; channel < 3; channel++) {
      const light = linearLight[rgb[at * 3 + channel]!]! * Math.exp(middle[channel]! - fieldAt(fields[channel]!, here));
      out[at * 3 + channel] = Math.round(srgbByteOf(light));
    }
  }
  return { widthPx, heightPx, rgb: out };
}

const fieldAt = (field: readonly number[], [x, y]: readonly [number, number]): number =>
  terms(x, y).reduce((sum, term, at) => sum + term * field[at]!, 0);

function fitted(
  chosen: readonly number[],
  values: readonly number[],
  weights: readonly number[],
  place: (at: number) => [number, number],
): number[] {
  const matrix = Array.from({ length: 6 }, (_, at) =>
    Array.from({ length: 6 }, (_, other) => (at === other ? 1e-6 : 0)),
  );
  const right = new Array<number>(6).fill(0);
  for (const [index, at] of chosen.entries()) {
    const row = terms(...place(at));
    for (let i = 0; i < 6; i++) {
      right[i]! += weights[index]! * row[i]! * values[index]!;
      for (let j = 0; j < 6; j++) matrix[i]![j]! += weights[index]! * row[i]! * row[j]!;
    }
  }
  return solveLinear(matrix, right);
}

function medianOf(values: Float32Array): number {
  return values.sort()[values.length >> 1] ?? 0;
}
