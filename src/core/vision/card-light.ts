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
import { inverted, mapped, type Point } from "./homography.ts";
import { linearLight } from "./lab-image.ts";
import type { MeasuringCard, RectangleMm } from "./measuring-card.ts";
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
  /** Chroma of the paper, C*ab, before balancing. */
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
  if (samples.length < 60) throw new InputError("photo", "a card without visible paper", "a card that is not covered");
  let kept = samples;
  let fields = fittedFields(kept);
  for (const share of paperShares) {
    kept = samples.filter((one) => one.light[1] >= share * lightOf(fields[1], one.at));
    if (kept.length < 60) throw new InputError("photo", "a card mostly in shadow", "a card in even light");
    fields = fittedFields(kept);
  }
  const middle = unit(card, [card.window.xMm + card.window.widthMm / 2, card.window.yMm + card.window.heightMm / 2]);
  const white = fields.map((field) => lightOf(field, middle)) as [number, number, number];
  const corners = windowGrid(card).map((place) => lightOf(fields[1], unit(card, place)));
  const far = samples.filter((one) => !one.nearCoupon);
  return {
    fields,
    cardMm: { widthMm: card.widthMm * printScale, heightMm: card.heightMm * printScale },
    whiteLevel: white.reduce((sum, one) => sum + srgbByteOf(one), 0) / 3,
    clippedPaperPercent: (100 * kept.filter((one) => one.clipped).length) / kept.length,
    unevenness: Math.max(...corners) / Math.min(...corners),
    shadowPercent:
      (100 * far.filter((one) => one.light[1] < 0.85 * lightOf(fields[1], one.at)).length) / Math.max(1, far.length),
    castChroma: chromaOf(white),
  };
}

type Sample = {
  at: Point;
  light: readonly [number, number, number];
  logs: readonly number[];
  clipped: boolean;
  nearCoupon: boolean;
};

const unit = (card: { widthMm: number; heightMm: number }, [x, y]: Point): Point => [
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
  const within = (x: number, y: number, place: RectangleMm, round: number) =>
    x > place.xMm - round &&
    x < place.xMm + place.widthMm + round &&
    y > place.yMm - round &&
    y < place.yMm + place.heightMm + round;
  const clippedLight = linearLight[clippedByte]!;
  const samples: Sample[] = [];
  for (let row = 1; row < image.heightPx - 1; row++)
    for (let column = 1; column < image.widthPx - 1; column++) {
      const [x, y] = [(column + 0.5) / samplesPxPerMm, (row + 0.5) / samplesPxPerMm];
      if (printed.some((place) => within(x, y, place, 0))) continue;
      if (within(x * printScale, y * printScale, coupon, 1)) continue;
      const at = (row * image.widthPx + column) * 3;
      const light = [image.light[at]!, image.light[at + 1]!, image.light[at + 2]!] as const;
      samples.push({
        at: unit(card, [x, y]),
        light,
        logs: light.map((value) => Math.log(Math.max(value, 1e-4))),
        clipped: Math.max(...light) >= clippedLight,
        nearCoupon: within(x * printScale, y * printScale, coupon, shadowReachMm),
      });
    }
  return samples;
}

const terms = ([x, y]: Point) => [1, x, y, x * x, x * y, y * y];
const termCount = 6;

function fittedFields(samples: readonly Sample[]): [number[], number[], number[]] {
  // Half of a symmetric matrix is summed, in one flat row: this runs over thousands of samples four times.
  const products = new Float64Array(termCount * termCount);
  const right = [0, 1, 2].map(() => new Float64Array(termCount));
  const row = new Float64Array(termCount);
  for (const { at, logs } of samples) {
    row.set(terms(at));
    for (let i = 0; i < termCount; i++) {
      for (let j = i; j < termCount; j++) products[i * termCount + j]! += row[i]! * row[j]!;
      for (let channel = 0; channel < 3; channel++) right[channel]![i]! += row[i]! * logs[channel]!;
    }
  }
  const normal = Array.from({ length: termCount }, (_, i) =>
    Array.from({ length: termCount }, (_, j) => products[Math.min(i, j) * termCount + Math.max(i, j)]!),
  );
  const solved = (channel: number) => solveLinear(normal, [...right[channel]!]);
  return [solved(0), solved(1), solved(2)];
}

function lightOf(field: readonly number[], at: Point): number {
  return Math.exp(terms(at).reduce((sum, term, index) => sum + term * field[index]!, 0));
}

/** Light of the paper at a place of the card (mm), red, green and blue. */
export function lightAt({ fields, cardMm }: CardLight, place: Point): [number, number, number] {
  const [red, green, blue] = fields.map((field) => lightOf(field, unit(cardMm, place)));
  return [red!, green!, blue!];
}

function chromaOf([red, green, blue]: readonly [number, number, number]): number {
  return labFromSrgb({ red: srgbByteOf(red), green: srgbByteOf(green), blue: srgbByteOf(blue) }).chroma;
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

function gainStepOf(field: readonly number[], at: Point): number {
  const gainLn = Math.log(whiteLight) - terms(at).reduce((sum, term, index) => sum + term * field[index]!, 0);
  return Math.round((Math.min(mostGainLn, Math.max(-mostGainLn, gainLn)) + mostGainLn) * stepsPerLn);
}

/**
 * A picture (of the card's plane or one above it) in even, neutral light: paper becomes white everywhere. A new picture.
 * `toCardMm`: where on the card (mm) a pixel lies, in px of the picture.
 */
export function balanced(image: RgbImage, light: CardLight, toCardMm: (place: Point) => Point): RgbImage {
  const { widthPx, heightPx, rgb } = image;
  const out = new Uint8Array(rgb.length);
  // Light changes slowly: gains are worked out every few pixels and held in between.
  const block = 8;
  for (let top = 0; top < heightPx; top += block)
    for (let left = 0; left < widthPx; left += block) {
      const at = unit(light.cardMm, toCardMm([left + block / 2, top + block / 2]));
      const [red, green, blue] = light.fields.map((field) => gainStepOf(field, at)) as [number, number, number];
      const bytes = 3 * (Math.min(widthPx, left + block) - left);
      for (let row = top; row < Math.min(heightPx, top + block); row++)
        for (let byte = (row * widthPx + left) * 3, end = byte + bytes; byte < end; byte += 3) {
          out[byte] = byteOfStep[stepOfByte[rgb[byte]!]! + red]!;
          out[byte + 1] = byteOfStep[stepOfByte[rgb[byte + 1]!]! + green]!;
          out[byte + 2] = byteOfStep[stepOfByte[rgb[byte + 2]!]! + blue]!;
        }
    }
  return { widthPx, heightPx, rgb: out };
}
