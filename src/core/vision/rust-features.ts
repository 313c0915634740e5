/**
 * What the learned rust model looks at, pixel by pixel: colour, colour against the picture's own surface, and local texture.
 *
 * Colour is CIELAB averaged over 3 x 3 px. Texture and surroundings come from cells of 4 x 4 px: means and spreads of L*, a*, b* over
 * 4, 12 and 28 px. The picture's own surface is described by quantiles over its counted part, so a cast or an exposure
 * that all of it shares weighs less than what stands out from it. Nothing depends on where in the picture a pixel lies.
 *
 * Units    sRGB bytes in; features in units of CIELAB, spreads as log(1 + standard deviation)
 * Source   our own choice of features, kept where they helped on photographs left out of the learning
 * Status   computed
 */
import { boxMean } from "./box-mean.ts";
import { type LabImage, labImage } from "./lab-image.ts";
import { nthOf } from "./nth-of.ts";
import { addressOf, inRoom, kept, lentBytes, lentFloats, lentWholes, pixelLoops } from "./pixel-loops.ts";
import type { RgbImage } from "./raster.ts";
import { colourMarks, labOver } from "./rust-by-colour.ts";

/** Pixels to a side of a cell; sums go by `>> 2`. */
export const cellPx = 4;

/** Of each cell: what surrounds it. Kept in one array, `cellFeatures.length` values per cell. */
export const cellFeatures = [
  "lightness over 12 px",
  "a over 12 px",
  "b over 12 px",
  "lightness over 28 px",
  "a over 28 px",
  "b over 28 px",
  "spread of lightness over 4 px",
  "spread of lightness over 12 px",
  "spread of lightness over 28 px",
  "spread of a over 4 px",
  "spread of b over 4 px",
  "spread of a over 12 px",
  "spread of b over 12 px",
  "spread of a over 28 px",
  "spread of b over 28 px",
  "spread of lightness over its level",
  "rust by colour over 12 px",
  "rust by colour over 28 px",
] as const;

/** Of each pixel: its own colour in eight forms (chroma and the shares of it tell grey from colour in dim light too), and the colour rule's word. */
export const pixelFeatures = [
  "lightness",
  "a",
  "b",
  "chroma",
  "redness",
  "yellowness",
  "a by lightness",
  "b by lightness",
  "rust by colour",
] as const;

/** Of the whole picture, over its counted part. */
export type OwnSurface = {
  medianLightness: number;
  brightLightness: number;
  spreadLightness: number;
  medianA: number;
  medianB: number;
  greyChroma: number;
};

export type RustFeatures = {
  widthPx: number;
  heightPx: number;
  /** CIELAB over 3 x 3 px. */
  lightness: Float32Array;
  a: Float32Array;
  b: Float32Array;
  /** 1 where the colour rule says rust. */
  byColour: Uint8Array;
  cellColumns: number;
  cellRows: number;
  cells: Float32Array;
  /** Per cell, 1: the face is grey and nothing in it is as warm as rust. What `cells` holds of it means nothing. */
  passedOver: Uint8Array;
  own: OwnSurface;
};

/** A face whose own a*b* chroma is at most this is grey: phosphate, steel, oil, wax. */
const greyUpToChroma = 8;
/** Whether the face in question is grey by its own median colour (CIELAB). */
export const isGrey = ({ medianA, medianB }: OwnSurface) => Math.hypot(medianA, medianB) <= greyUpToChroma;

/** On a grey face rust is redder and yellower than the face, black rust too, by at least this (a* and b* added). */
const leastWarmth = 2;
/** Steel in neutral light; in warm light nothing is passed over, which only costs time. */
const mostWarmthOfSteel = 1;

/**
 * Features of every pixel in units of CIELAB. `counted` (not 0 = counted) says over which part the picture's own surface is taken; null: all
 * of it. pxPerMm: null where nobody knows the scale. With `passOver`, cells of a grey face without anything warm are left out.
 */
export function rustFeatures(
  image: RgbImage,
  counted: Uint8Array | null,
  pxPerMm: number | null,
  passOver = false,
): RustFeatures {
  const { widthPx, heightPx } = image;
  const cellColumns = Math.ceil(widthPx / cellPx);
  const cellRows = Math.ceil(heightPx / cellPx);
  const raster = { widthPx, heightPx, cellColumns, cellRows };
  return kept(() => {
    const lab = labImage(image);
    const lightness = moments(lab.lightness, raster);
    const a = moments(lab.a, raster);
    const b = moments(lab.b, raster);
    const over3 = labOver(lab, 1);
    const byColour = colourMarks(image, lab, pxPerMm, over3);
    pixelLoops().toOnes(byColour.byteOffset, byColour.length);
    const own = ownSurface({ lightness: lightness.mean, a: a.mean, b: b.mean }, countedCells(counted, raster));
    const passedOver = coldCells(over3, own, raster, passOver && isGrey(own));
    const cells = cellsOf([lightness, a, b], { byColour: sharesOf(byColour, raster), passedOver, raster });
    return { ...raster, byColour, lightness: over3.lightness, a: over3.a, b: over3.b, cells, passedOver, own };
  });
}

/** Cells (1) of a grey face in which no pixel is as warm as rust; none unless they are looked for. */
function coldCells({ a, b }: LabImage, own: OwnSurface, raster: Raster, areLookedFor: boolean): Uint8Array {
  const { widthPx, heightPx, cellColumns, cellRows } = raster;
  const cold = lentBytes(cellColumns * cellRows);
  // Where most of the face is rust its median is no measure of steel.
  const least = Math.min(own.medianA + own.medianB, mostWarmthOfSteel) + leastWarmth;
  if (areLookedFor) pixelLoops().coldCells(addressOf(a), addressOf(b), widthPx, heightPx, least, cold.byteOffset);
  else cold.fill(0);
  return cold;
}

type Raster = { widthPx: number; heightPx: number; cellColumns: number; cellRows: number };
/** Mean and mean square of a plane, by cell. */
type Moments = { mean: Float32Array; square: Float32Array };

function moments(plane: Float32Array, { widthPx, heightPx, cellColumns, cellRows }: Raster): Moments {
  const mean = lentFloats(cellColumns * cellRows);
  const square = lentFloats(cellColumns * cellRows);
  pixelLoops().moments(addressOf(plane), widthPx, heightPx, mean.byteOffset, square.byteOffset);
  return { mean, square };
}

/** Of each cell, the share of its pixels that are 1. */
function sharesOf(ones: Uint8Array, { widthPx, heightPx, cellColumns, cellRows }: Raster): Float32Array {
  const shares = lentFloats(cellColumns * cellRows);
  pixelLoops().sharesOf(addressOf(ones), widthPx, heightPx, shares.byteOffset);
  return shares;
}

type Others = { byColour: Float32Array; passedOver: Uint8Array; raster: Raster };

function cellsOf(planes: readonly Moments[], { byColour, passedOver, raster }: Others): Float32Array {
  const { cellColumns, cellRows } = raster;
  const cells = lentFloats(cellColumns * cellRows * cellFeatures.length);
  inRoom(() => {
    const over = (plane: Float32Array, radius: number) => boxMean(plane, cellColumns, cellRows, radius);
    const addresses = planes.flatMap(({ mean, square }) => [
      ...[mean, square, over(mean, 1), over(square, 1), over(mean, 3), over(square, 3)].map(addressOf),
    ]);
    const list = lentWholes(addresses.length + 2);
    list.set([...addresses, addressOf(over(byColour, 1)), addressOf(over(byColour, 3))]);
    pixelLoops().cellValues(list.byteOffset, addressOf(passedOver), passedOver.length, cells.byteOffset);
  });
  return cells;
}

/** Cells whose middle is counted; all of them where nothing is left out. */
function countedCells(counted: Uint8Array | null, { widthPx, heightPx, cellColumns, cellRows }: Raster): Uint32Array {
  const cells = new Uint32Array(cellColumns * cellRows);
  let taken = 0;
  for (let row = 0; row < cellRows; row++)
    for (let column = 0; column < cellColumns; column++) {
      const y = Math.min(heightPx - 1, row * cellPx + cellPx / 2);
      const x = Math.min(widthPx - 1, column * cellPx + cellPx / 2);
      if (counted?.[y * widthPx + x] !== 0) cells[taken++] = row * cellColumns + column;
    }
  // A counted part thinner than a cell: its surroundings are the best that is known.
  return taken > 0 ? cells.subarray(0, taken) : cells.map((_, at) => at);
}

function ownSurface(
  { lightness, a, b }: { lightness: Float32Array; a: Float32Array; b: Float32Array },
  counted: Uint32Array,
): OwnSurface {
  // A few thousand places give a quantile as well as all of them.
  const step = Math.ceil(counted.length / 4000);
  const places = Uint32Array.from({ length: Math.ceil(counted.length / step) }, (_, at) => counted[at * step]!);
  const [levels, reds, yellows] = [takenAt(lightness, places), takenAt(a, places), takenAt(b, places)];
  const chromas = chromaOf(reds, yellows);
  return {
    medianLightness: quantile(levels, 0.5),
    brightLightness: quantile(levels, 0.9),
    spreadLightness: Math.max(4, (quantile(levels, 0.84) - quantile(levels, 0.16)) / 2),
    medianA: quantile(reds, 0.5),
    medianB: quantile(yellows, 0.5),
    greyChroma: quantile(chromas, 0.25),
  };
}

function takenAt(plane: Float32Array, places: Uint32Array): Float32Array {
  const values = new Float32Array(places.length);
  for (let at = 0; at < places.length; at++) values[at] = plane[places[at]!]!;
  return values;
}

function chromaOf(a: Float32Array, b: Float32Array): Float32Array {
  const chroma = new Float32Array(a.length);
  for (let at = 0; at < a.length; at++) chroma[at] = Math.sqrt(a[at]! * a[at]! + b[at]! * b[at]!);
  return chroma;
}

/** The value below which this share lies. Puts `values` in some other order. */
const quantile = (values: Float32Array, share: number) => nthOf(values, Math.floor(share * (values.length - 1)));
