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
import { givePlanesBack } from "./planes.ts";
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
  /** Per cell, 1: the face is grey and nothing in it is as warm as rust. Its surroundings are not worked out. */
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
  const lab = labImage(image);
  const cellColumns = Math.ceil(widthPx / cellPx);
  const cellRows = Math.ceil(heightPx / cellPx);
  const raster = { widthPx, heightPx, cellColumns, cellRows };
  const lightness = moments(lab.lightness, raster);
  const a = moments(lab.a, raster);
  const b = moments(lab.b, raster);
  const over3 = labOver(lab, 1);
  const byColour = colourMarks(image, lab, pxPerMm, over3);
  toOnes(byColour);
  const own = ownSurface({ lightness: lightness.mean, a: a.mean, b: b.mean }, countedCells(counted, raster));
  const passedOver = passOver && isGrey(own) ? coldCells(over3, own, raster) : new Uint8Array(cellColumns * cellRows);
  givePlanesBack(lab.lightness, lab.a, lab.b);
  const cells = cellsOf(lightness, a, b, { byColour: sharesOf(byColour, raster), passedOver, raster });
  return { ...raster, byColour, lightness: over3.lightness, a: over3.a, b: over3.b, cells, passedOver, own };
}

// Loops over all pixels stand by themselves and take planes and numbers: an engine forgets how to be quick with objects of whose form it
// has seen few, and goes through the rest of such a loop slowly.

/** A mark is 255: its last bit is the word for the network. */
function toOnes(marked: Uint8Array): void {
  for (let at = 0; at < marked.length; at++) marked[at]! &= 1;
}

/** Cells (1) in which no pixel is as warm as rust. */
function coldCells({ a, b }: LabImage, own: OwnSurface, { widthPx, cellColumns, cellRows }: Raster): Uint8Array {
  // Where most of the face is rust its median is no measure of steel.
  const least = Math.min(own.medianA + own.medianB, mostWarmthOfSteel) + leastWarmth;
  const cold = new Uint8Array(cellColumns * cellRows).fill(1);
  warmToNought(a, b, least, widthPx, cellColumns, cold);
  return cold;
}

function warmToNought(
  a: Float32Array,
  b: Float32Array,
  least: number,
  widthPx: number,
  cellColumns: number,
  cold: Uint8Array,
): void {
  for (let row = 0, at = 0; at < a.length; row++) {
    const cells = (row >> 2) * cellColumns;
    for (let column = 0; column < widthPx; column++, at++) if (a[at]! + b[at]! > least) cold[cells + (column >> 2)] = 0;
  }
}

type Raster = { widthPx: number; heightPx: number; cellColumns: number; cellRows: number };
/** Mean and mean square of a plane, by cell. */
type Moments = { mean: Float32Array; square: Float32Array };

function moments(plane: Float32Array, { widthPx, heightPx, cellColumns, cellRows }: Raster): Moments {
  const mean = new Float32Array(cellColumns * cellRows);
  const square = new Float32Array(cellColumns * cellRows);
  const sums = new Float64Array(cellColumns);
  const squares = new Float64Array(cellColumns);
  for (let cellRow = 0; cellRow < cellRows; cellRow++) {
    sums.fill(0);
    squares.fill(0);
    const bottom = Math.min(heightPx, (cellRow + 1) * cellPx);
    for (let row = cellRow * cellPx; row < bottom; row++) addByFours(plane, row * widthPx, widthPx, sums, squares);
    const rows = bottom - cellRow * cellPx;
    for (let column = 0, to = cellRow * cellColumns; column < cellColumns; column++, to++) {
      const pixels = rows * Math.min(cellPx, widthPx - column * cellPx);
      mean[to] = sums[column]! / pixels;
      square[to] = squares[column]! / pixels;
    }
  }
  return { mean, square };
}

function addByFours(plane: Float32Array, start: number, widthPx: number, sums: Float64Array, squares: Float64Array) {
  const whole = widthPx >> 2;
  for (let cell = 0, at = start; cell < whole; cell++, at += 4) {
    const a = plane[at]!;
    const b = plane[at + 1]!;
    const c = plane[at + 2]!;
    const d = plane[at + 3]!;
    sums[cell]! += a + b + (c + d);
    squares[cell]! += a * a + b * b + (c * c + d * d);
  }
  for (let at = start + 4 * whole; at < start + widthPx; at++) {
    sums[whole]! += plane[at]!;
    squares[whole]! += plane[at]! * plane[at]!;
  }
}

/** Of each cell, the share of its pixels that are 1. */
function sharesOf(ones: Uint8Array, { widthPx, heightPx, cellColumns, cellRows }: Raster): Float32Array {
  const shares = new Float32Array(cellColumns * cellRows);
  addOnes(ones, widthPx, heightPx, cellColumns, shares);
  return shares;
}

function addOnes(ones: Uint8Array, widthPx: number, heightPx: number, cellColumns: number, shares: Float32Array): void {
  for (let row = 0, at = 0; row < heightPx; row++) {
    const cells = (row >> 2) * cellColumns;
    const rows = Math.min(cellPx, heightPx - (row & ~3));
    for (let column = 0; column < widthPx; column++, at++)
      if (ones[at] !== 0) shares[cells + (column >> 2)]! += 1 / (rows * Math.min(cellPx, widthPx - (column & ~3)));
  }
}

type Others = { byColour: Float32Array; passedOver: Uint8Array; raster: Raster };

function cellsOf(lightness: Moments, a: Moments, b: Moments, { byColour, passedOver, raster }: Others): Float32Array {
  const { cellColumns, cellRows } = raster;
  const over = ({ mean, square }: Moments, radius: number): Moments => ({
    mean: boxMean(mean, cellColumns, cellRows, radius),
    square: boxMean(square, cellColumns, cellRows, radius),
  });
  const near = [over(lightness, 1), over(a, 1), over(b, 1)] as const;
  const wide = [over(lightness, 3), over(a, 3), over(b, 3)] as const;
  const colourNear = boxMean(byColour, cellColumns, cellRows, 1);
  const colourWide = boxMean(byColour, cellColumns, cellRows, 3);
  const count = cellFeatures.length;
  const cells = new Float32Array(cellColumns * cellRows * count);
  for (let at = 0, to = 0; at < cellColumns * cellRows; at++, to += count) {
    if (passedOver[at] !== 0) continue;
    for (let plane = 0; plane < 3; plane++) {
      cells[to + plane] = near[plane]!.mean[at]!;
      cells[to + 3 + plane] = wide[plane]!.mean[at]!;
    }
    const spreadOver12 = spread(near[0], at);
    cells[to + 6] = Math.log(1 + spread(lightness, at));
    cells[to + 7] = Math.log(1 + spreadOver12);
    cells[to + 8] = Math.log(1 + spread(wide[0], at));
    cells[to + 9] = Math.log(1 + spread(a, at));
    cells[to + 10] = Math.log(1 + spread(b, at));
    cells[to + 11] = Math.log(1 + spread(near[1], at));
    cells[to + 12] = Math.log(1 + spread(near[2], at));
    cells[to + 13] = Math.log(1 + spread(wide[1], at));
    cells[to + 14] = Math.log(1 + spread(wide[2], at));
    cells[to + 15] = spreadOver12 / (8 + near[0].mean[at]!);
    cells[to + 16] = colourNear[at]!;
    cells[to + 17] = colourWide[at]!;
  }
  givePlanesBack(colourNear, colourWide);
  for (const { mean, square } of [...near, ...wide]) givePlanesBack(mean, square);
  return cells;
}

function spread({ mean, square }: Moments, at: number): number {
  return Math.sqrt(Math.max(0, square[at]! - mean[at]! * mean[at]!));
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
  const taken = (value: (cell: number) => number) => {
    const values = new Float32Array(Math.ceil(counted.length / step));
    for (let at = 0; at < values.length; at++) values[at] = value(counted[at * step]!);
    return values;
  };
  const levels = taken((cell) => lightness[cell]!);
  return {
    medianLightness: quantile(levels, 0.5),
    brightLightness: quantile(levels, 0.9),
    spreadLightness: Math.max(4, (quantile(levels, 0.84) - quantile(levels, 0.16)) / 2),
    medianA: quantile(
      taken((cell) => a[cell]!),
      0.5,
    ),
    medianB: quantile(
      taken((cell) => b[cell]!),
      0.5,
    ),
    greyChroma: quantile(
      taken((cell) => Math.hypot(a[cell]!, b[cell]!)),
      0.25,
    ),
  };
}

/** The value below which this share lies. Puts `values` in some other order. */
const quantile = (values: Float32Array, share: number) => nthOf(values, Math.floor(share * (values.length - 1)));
