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
import { labImage } from "./lab-image.ts";
import { marks, type RgbImage } from "./raster.ts";
import { colourMarks } from "./rust-by-colour.ts";

/** Pixels to a side of a cell. */
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
  byColour: Float32Array;
  cellColumns: number;
  cellRows: number;
  cells: Float32Array;
  own: OwnSurface;
};

/** Features of every pixel in units of CIELAB. `counted` (not 0 = counted) says over which part the picture's own surface is taken; null: all of it. pxPerMm: null where nobody knows the scale. */
export function rustFeatures(image: RgbImage, counted: Uint8Array | null, pxPerMm: number | null): RustFeatures {
  const { widthPx, heightPx } = image;
  const lab = labImage(image);
  const cellColumns = Math.ceil(widthPx / cellPx);
  const cellRows = Math.ceil(heightPx / cellPx);
  const raster = { widthPx, heightPx, cellColumns, cellRows };
  const [lightness, a, b] = [lab.lightness, lab.a, lab.b].map((plane) => moments(plane, raster)) as [
    Moments,
    Moments,
    Moments,
  ];
  const byColour = onesWhereRust(colourMarks(image, lab, pxPerMm));
  return {
    ...raster,
    byColour,
    lightness: boxMean(lab.lightness, widthPx, heightPx, 1),
    a: boxMean(lab.a, widthPx, heightPx, 1),
    b: boxMean(lab.b, widthPx, heightPx, 1),
    cells: cellsOf(lightness, a, b, moments(byColour, raster).mean, raster),
    own: ownSurface({ lightness: lightness.mean, a: a.mean, b: b.mean }, countedCells(counted, raster)),
  };
}

function onesWhereRust(found: Uint8Array): Float32Array {
  const ones = new Float32Array(found.length);
  for (let at = 0; at < ones.length; at++) if (found[at] === marks.rust) ones[at] = 1;
  return ones;
}

type Raster = { widthPx: number; heightPx: number; cellColumns: number; cellRows: number };
/** Mean and mean square of a plane, by cell. */
type Moments = { mean: Float32Array; square: Float32Array };

function moments(plane: Float32Array, { widthPx, heightPx, cellColumns, cellRows }: Raster): Moments {
  const mean = new Float32Array(cellColumns * cellRows);
  const square = new Float32Array(cellColumns * cellRows);
  for (let row = 0; row < cellRows; row++)
    for (let column = 0; column < cellColumns; column++) {
      const right = Math.min(widthPx, (column + 1) * cellPx);
      const bottom = Math.min(heightPx, (row + 1) * cellPx);
      let [sum, squares, pixels] = [0, 0, 0];
      for (let y = row * cellPx; y < bottom; y++)
        for (let x = column * cellPx; x < right; x++) {
          const value = plane[y * widthPx + x]!;
          sum += value;
          squares += value * value;
          pixels++;
        }
      mean[row * cellColumns + column] = sum / pixels;
      square[row * cellColumns + column] = squares / pixels;
    }
  return { mean, square };
}

function cellsOf(
  lightness: Moments,
  a: Moments,
  b: Moments,
  byColour: Float32Array,
  { cellColumns, cellRows }: Raster,
): Float32Array {
  const over = ({ mean, square }: Moments, radius: number): Moments => ({
    mean: boxMean(mean, cellColumns, cellRows, radius),
    square: boxMean(square, cellColumns, cellRows, radius),
  });
  const near = [lightness, a, b].map((plane) => over(plane, 1)) as [Moments, Moments, Moments];
  const wide = [lightness, a, b].map((plane) => over(plane, 3)) as [Moments, Moments, Moments];
  const [colourNear, colourWide] = [1, 3].map((radius) => boxMean(byColour, cellColumns, cellRows, radius)) as [
    Float32Array,
    Float32Array,
  ];
  const count = cellFeatures.length;
  const cells = new Float32Array(cellColumns * cellRows * count);
  for (let at = 0, to = 0; at < cellColumns * cellRows; at++, to += count) {
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
  return cells;
}

function spread({ mean, square }: Moments, at: number): number {
  return Math.sqrt(Math.max(0, square[at]! - mean[at]! * mean[at]!));
}

/** Cells whose middle is counted; all of them where nothing is left out. */
function countedCells(counted: Uint8Array | null, { widthPx, heightPx, cellColumns, cellRows }: Raster): Uint32Array {
  const cells: number[] = [];
  for (let row = 0; row < cellRows; row++)
    for (let column = 0; column < cellColumns; column++) {
      const y = Math.min(heightPx - 1, row * cellPx + cellPx / 2);
      const x = Math.min(widthPx - 1, column * cellPx + cellPx / 2);
      if (counted?.[y * widthPx + x] !== 0) cells.push(row * cellColumns + column);
    }
  // A counted part thinner than a cell: its surroundings are the best that is known.
  return Uint32Array.from(cells.length > 0 ? cells : Array.from({ length: cellColumns * cellRows }, (_, at) => at));
}

function ownSurface(
  { lightness, a, b }: { lightness: Float32Array; a: Float32Array; b: Float32Array },
  counted: Uint32Array,
): OwnSurface {
  // A few thousand places give a quantile as well as all of them.
  const step = Math.ceil(counted.length / 4000);
  const cells = counted.filter((_, at) => at % step === 0);
  const sorted = (value: (cell: number) => number) => Float32Array.from(cells, value).sort();
  const quantile = (values: Float32Array, share: number) => values[Math.floor(share * (values.length - 1))]!;
  const levels = sorted((cell) => lightness[cell]!);
  return {
    medianLightness: quantile(levels, 0.5),
    brightLightness: quantile(levels, 0.9),
    spreadLightness: Math.max(4, (quantile(levels, 0.84) - quantile(levels, 0.16)) / 2),
    medianA: quantile(
      sorted((cell) => a[cell]!),
      0.5,
    ),
    medianB: quantile(
      sorted((cell) => b[cell]!),
      0.5,
    ),
    greyChroma: quantile(
      sorted((cell) => Math.hypot(a[cell]!, b[cell]!)),
      0.25,
    ),
  };
}
