/**
 * The light on the card, from its bare paper: how bright, how even and of which colour; and the coupon seen as in even, neutral light.
 *
 * Each channel's light is a smooth field over the card (its logarithm a polynomial of the second degree), fitted to the paper round the
 * window and beside the markers; what is much darker than its surroundings (coupon, shadow, print) is no paper and left out.
 *
 * Units    mm on the card; light 0 to 1; sRGB bytes
 * Source   our own; paper is taken for white
 * Status   common practice
 */
import { InputError } from "../input-error.ts";
import { solveLinear } from "../numeric/solve-linear.ts";
import { labFromSrgb } from "./colour-lab.ts";
import type { CornersPx } from "./coupon-plane.ts";
import type { FoundCard } from "./find-card.ts";
import { type Homography, inverted, mapped, type Point } from "./homography.ts";
import { linearLight } from "./lab-image.ts";
import type { MeasuringCard, RectangleMm } from "./measuring-card.ts";
import { addressOf, inRoom, kept, lentBytes, lentWholes, pixelLoops } from "./pixel-loops.ts";
import type { RgbImage } from "./raster.ts";
import { srgbByteOf } from "./srgb-byte.ts";
import { windowImage } from "./window-image.ts";

export type CardLight = {
  /** Coefficients of ln(light) in 1, x, y, x², xy, y² for red, green, blue; x and y from -1 to 1 over the card. */
  fields: readonly [readonly number[], readonly number[], readonly number[]];
  cardMm: { widthMm: number; heightMm: number };
  /** sRGB level of the paper in the middle of the window, 0 to 255, mean of the channels. */
  whiteLevel: number;
  /** Share of paper that is clipped in a channel, %. */
  clippedPaperPercent: number;
  /** Brightest over darkest place of the window by the fitted light. */
  unevenness: number;
  /** Share of the paper outside the coupon's surroundings that lies over 15 % below the fitted light: a hard shadow, %. */
  shadowPercent: number;
  /** Chroma of the paper, C*ab, in its own tint and balanced brightness. */
  castChroma: number;
};

/** Light changes slowly: every second millimetre tells it. */
const samplesPxPerMm = 0.5;
/** Paper is at least this share of the brightest paper near it; the first round must not lose a dim side. */
const paperShares = [0.55, 0.8, 0.87];
/** Balanced paper comes out at this light (sRGB 235): a camera's usual white with a little room above. */
export const whiteLight = 0.83;
const clippedByte = 252;

/** Refuses a card on which hardly any paper is to be seen. `couponPx`: corners of what surely is no paper; a shadow beside it is expected. */
export function cardLight(photo: RgbImage, found: FoundCard, couponPx: CornersPx): CardLight {
  const { card, printScale } = found;
  const samples = paperSamples(photo, found, aroundCoupon(found, couponPx));
  if (samples.count < 60) throw new InputError("photo", "a card without visible paper", "a card that is not covered");
  const isKept = new Uint8Array(samples.count).fill(1);
  let fields = fittedFields(samples, isKept);
  for (const share of paperShares) {
    if (keepPaper(samples, fields[1], share, isKept) < 60)
      throw new InputError("photo", "a card mostly in shadow", "a card in even light");
    fields = fittedFields(samples, isKept);
  }
  const middle = unit(card, [card.window.xMm + card.window.widthMm / 2, card.window.yMm + card.window.heightMm / 2]);
  const white = fields.map((field) => lightOf(field, ...middle)) as [number, number, number];
  const corners = windowGrid(card).map((place) => lightOf(fields[1], ...unit(card, place)));
  return {
    fields,
    cardMm: { widthMm: card.widthMm * printScale, heightMm: card.heightMm * printScale },
    whiteLevel: white.reduce((sum, one) => sum + srgbByteOf(one), 0) / 3,
    clippedPaperPercent: clippedPercent(samples, isKept),
    unevenness: Math.max(...corners) / Math.min(...corners),
    shadowPercent: shadowPercent(samples, fields[1]),
    castChroma: castChromaOf(white),
  };
}

/** Places of the card that could be paper, one after the other; x and y from -1 to 1 over the card, three channels to each place. */
type Samples = {
  count: number;
  x: Float64Array;
  y: Float64Array;
  light: Float32Array;
  logs: Float64Array;
  nearCoupon: Uint8Array;
};

/** Marks as kept what is bright enough to be paper in the green field; how many that are. */
function keepPaper({ count, x, y, light }: Samples, green: readonly number[], share: number, isKept: Uint8Array) {
  let paper = 0;
  for (let at = 0; at < count; at++) {
    isKept[at] = light[3 * at + 1]! >= share * lightOf(green, x[at]!, y[at]!) ? 1 : 0;
    paper += isKept[at]!;
  }
  return paper;
}

function clippedPercent({ count, light }: Samples, isKept: Uint8Array): number {
  const clippedLight = linearLight[clippedByte]!;
  let [clipped, paper] = [0, 0];
  for (let at = 0; at < count; at++) {
    if (isKept[at] === 0) continue;
    paper++;
    if (Math.max(light[3 * at]!, light[3 * at + 1]!, light[3 * at + 2]!) >= clippedLight) clipped++;
  }
  return (100 * clipped) / paper;
}

function shadowPercent({ count, x, y, light, nearCoupon }: Samples, green: readonly number[]): number {
  let [dark, far] = [0, 0];
  for (let at = 0; at < count; at++) {
    if (nearCoupon[at] === 1) continue;
    far++;
    if (light[3 * at + 1]! < 0.85 * lightOf(green, x[at]!, y[at]!)) dark++;
  }
  return (100 * dark) / Math.max(1, far);
}

const unit = (card: { widthMm: number; heightMm: number }, [x, y]: Point): [number, number] => [
  (2 * x) / card.widthMm - 1,
  (2 * y) / card.heightMm - 1,
];

/** The upright rectangle on the card (printed mm) that holds the coupon. */
function aroundCoupon({ toPicture }: FoundCard, couponPx: CornersPx): RectangleMm {
  const back = inverted(toPicture);
  const places = couponPx.map((corner) => mapped(back, corner));
  const [xs, ys] = [places.map(([x]) => x), places.map(([, y]) => y)];
  const [xMm, yMm] = [Math.min(...xs), Math.min(...ys)];
  return { xMm, yMm, widthMm: Math.max(...xs) - xMm, heightMm: Math.max(...ys) - yMm };
}

function windowGrid({ window }: MeasuringCard): Point[] {
  const shares = [0, 0.25, 0.5, 0.75, 1];
  return shares.flatMap((down) =>
    shares.map((across): Point => [window.xMm + across * window.widthMm, window.yMm + down * window.heightMm]),
  );
}

/** Paper this near to print is not read: blur carries the ink over it, mm. */
const printRoundMm = 1.2;
const coveredRoundMm = 10;

const grown = ({ xMm, yMm, widthMm, heightMm }: RectangleMm, round: number): RectangleMm => ({
  xMm: xMm - round,
  yMm: yMm - round,
  widthMm: widthMm + 2 * round,
  heightMm: heightMm + 2 * round,
});

/** How far a coupon's own shadow may reach, mm. */
const shadowReachMm = 6;

function paperSamples(photo: RgbImage, { card, printScale, toPicture, markers }: FoundCard, coupon: RectangleMm) {
  const image = windowImage(
    photo,
    toPicture,
    { xMm: 0, yMm: 0, widthMm: card.widthMm * printScale, heightMm: card.heightMm * printScale },
    samplesPxPerMm / printScale,
  );
  const printed = [
    ...card.markers.map(({ id, xMm, yMm }) => {
      // A marker that is not seen lies under something, which may reach well beyond it.
      const round = markers.some((marker) => marker.id === id) ? printRoundMm : coveredRoundMm;
      return grown({ xMm, yMm, widthMm: card.markerMm, heightMm: card.markerMm }, round);
    }),
    ...card.patches.filter(({ grey }) => grey < 255).map((patch) => grown(patch, printRoundMm)),
  ];
  const most = image.widthPx * image.heightPx;
  const samples: Samples = {
    count: 0,
    x: new Float64Array(most),
    y: new Float64Array(most),
    light: new Float32Array(3 * most),
    logs: new Float64Array(3 * most),
    nearCoupon: new Uint8Array(most),
  };
  const surelyCoupon = grown(coupon, 1);
  const nearCoupon = grown(coupon, shadowReachMm);
  for (let row = 1; row < image.heightPx - 1; row++)
    for (let column = 1; column < image.widthPx - 1; column++) {
      const [x, y] = [(column + 0.5) / samplesPxPerMm, (row + 0.5) / samplesPxPerMm];
      if (isWithin(x * printScale, y * printScale, surelyCoupon)) continue;
      if (printed.some((place) => isWithin(x, y, place))) continue;
      const at = samples.count++;
      samples.x[at] = (2 * x) / card.widthMm - 1;
      samples.y[at] = (2 * y) / card.heightMm - 1;
      samples.nearCoupon[at] = isWithin(x * printScale, y * printScale, nearCoupon) ? 1 : 0;
      const from = 3 * (row * image.widthPx + column);
      for (let channel = 0; channel < 3; channel++) {
        const light = image.light[from + channel]!;
        samples.light[3 * at + channel] = light;
        samples.logs[3 * at + channel] = Math.log(Math.max(light, 1e-4));
      }
    }
  return samples;
}

const isWithin = (x: number, y: number, { xMm, yMm, widthMm, heightMm }: RectangleMm) =>
  x > xMm && x < xMm + widthMm && y > yMm && y < yMm + heightMm;

const termCount = 6;

/** Least squares over the samples that are kept, channel by channel. */
function fittedFields({ count, x, y, logs }: Samples, isKept: Uint8Array): [number[], number[], number[]] {
  // Half of a symmetric matrix is summed, in one flat row: this runs over thousands of samples four times.
  const products = new Float64Array(termCount * termCount);
  const right = new Float64Array(3 * termCount);
  const row = new Float64Array(termCount).fill(1);
  for (let at = 0; at < count; at++) {
    if (isKept[at] === 0) continue;
    row[1] = x[at]!;
    row[2] = y[at]!;
    row[3] = x[at]! * x[at]!;
    row[4] = x[at]! * y[at]!;
    row[5] = y[at]! * y[at]!;
    for (let i = 0; i < termCount; i++) {
      const term = row[i]!;
      for (let j = i; j < termCount; j++) products[i * termCount + j]! += term * row[j]!;
      right[i]! += term * logs[3 * at]!;
      right[termCount + i]! += term * logs[3 * at + 1]!;
      right[2 * termCount + i]! += term * logs[3 * at + 2]!;
    }
  }
  const normal = Array.from({ length: termCount }, (_, i) =>
    Array.from({ length: termCount }, (_, j) => products[Math.min(i, j) * termCount + Math.max(i, j)]!),
  );
  const solved = (channel: number) =>
    solveLinear(normal, [...right.subarray(channel * termCount, (channel + 1) * termCount)]);
  return [solved(0), solved(1), solved(2)];
}

/** The polynomial of a field at x and y from -1 to 1. */
function lightOf(field: readonly number[], x: number, y: number): number {
  return Math.exp(
    field[0]! + x * field[1]! + y * field[2]! + x * x * field[3]! + x * y * field[4]! + y * y * field[5]!,
  );
}

/** Light of the paper at a place of the card (mm), red, green and blue. */
export function lightAt({ fields, cardMm }: CardLight, place: Point): [number, number, number] {
  const [red, green, blue] = fields.map((field) => lightOf(field, ...unit(cardMm, place)));
  return [red!, green!, blue!];
}

/** C*ab of what is white or grey in life, from its light. As if its brightest channel were balanced paper: the same lamp is as coloured where the picture is darker, its C*ab as taken is less. */
export function castChromaOf(white: readonly [number, number, number]): number {
  const times = whiteLight / Math.max(...white);
  const [red, green, blue] = white.map((light) => srgbByteOf(light * times)) as [number, number, number];
  return labFromSrgb({ red, green, blue }).chroma;
}

/** ln of the light in whole steps, so that a gain is one addition; a step is less than a fifth of what a byte can tell. */
const stepsPerLn = 512;
/** The darkest byte above 0 has ln -8.1; 0 counts as half of it. */
const darkestLn = -8.8;
/** The largest gain, ln: a paper that reads 1 of 255 is none. */
const mostGainLn = 8;
const stepOfByte = Int32Array.from(linearLight, (light) =>
  Math.round((Math.log(Math.max(light, 0.00015)) - darkestLn) * stepsPerLn),
);
/** From steps of light less the smallest gain to sRGB bytes. */
const byteOfStep = Uint8Array.from({ length: Math.ceil((2 * mostGainLn - darkestLn) * stepsPerLn) + 2 }, (_, step) =>
  Math.round(srgbByteOf(Math.min(1, Math.exp(darkestLn - mostGainLn + step / stepsPerLn)))),
);

/** Light changes slowly: gains are worked out every so many px and held in between. */
const gainBlockPx = 8;

/**
 * A picture (of the card's plane or one above it) in even, neutral light: paper becomes white everywhere. A new picture.
 * `toCardMm`: from px of the picture to where on the card (mm) a pixel lies.
 */
export function balanced(image: RgbImage, light: CardLight, toCardMm: Homography): RgbImage {
  const { widthPx, heightPx } = image;
  return kept(() => {
    const rgb = lentBytes(image.rgb.length);
    inRoom(() => {
      const [from, steps, bytes] = [addressOf(image.rgb), addressOf(stepOfByte), addressOf(byteOfStep)];
      const gains = lentWholes(3 * Math.ceil(widthPx / gainBlockPx));
      for (let top = 0; top < heightPx; top += gainBlockPx) {
        gainsAlong(gains, top + gainBlockPx / 2, light, toCardMm);
        const rows = Math.min(gainBlockPx, heightPx - top);
        const [source, to] = [from, rgb.byteOffset].map((start) => start + 3 * top * widthPx) as [number, number];
        pixelLoops().balanceRows(source, widthPx, rows, gainBlockPx, gains.byteOffset, steps, bytes, to);
      }
    });
    return { widthPx, heightPx, rgb };
  });
}

/** Red, green and blue of each block along a row, y in px, in steps of light. */
function gainsAlong(gains: Int32Array, y: number, { fields, cardMm }: CardLight, toCardMm: Homography): void {
  const [a, b, c, d, e, f, g, h, i] = toCardMm;
  for (let channel = 0; channel < 3; channel++) {
    const [one, byX, byY, byXx, byXy, byYy] = fields[channel]! as SixNumbers;
    for (let at = channel, x = gainBlockPx / 2; at < gains.length; at += 3, x += gainBlockPx) {
      const w = g * x + h * y + i;
      const u = (2 * ((a * x + b * y + c) / w)) / cardMm.widthMm - 1;
      const v = (2 * ((d * x + e * y + f) / w)) / cardMm.heightMm - 1;
      const gainLn = whiteLn - (one + u * byX + v * byY + u * u * byXx + u * v * byXy + v * v * byYy);
      gains[at] = Math.round((Math.min(mostGainLn, Math.max(-mostGainLn, gainLn)) + mostGainLn) * stepsPerLn);
    }
  }
}

type SixNumbers = readonly [number, number, number, number, number, number];
const whiteLn = Math.log(whiteLight);
