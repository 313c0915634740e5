/** The colour of a coupon's face: how dark, how even, and where a patch differs from the rest. */
import { deviation, mean, median } from "d3-array";
import { InputError } from "../input-error.ts";
import type { FaceRectangle } from "./assessed-face.ts";
import { deltaE2000 } from "./colour-difference.ts";
import type { Lab } from "./colour-lab.ts";
import type { SizeMm } from "./coupon-plane.ts";
import { labImage } from "./lab-image.ts";
import { marks, type RgbImage, type RustMask } from "./raster.ts";

/** A patch of the face that differs from the rest; its place is its middle, from the coupon's top left. */
export type Blotch = { xMm: number; yMm: number; areaMm2: number; deltaE: number; lighter: boolean };

export type FaceColour = {
  /** Mean of the face. */
  lab: Lab;
  /** Standard deviation of L* over the face, cell by cell. */
  lightnessSd: number;
  blotches: Blotch[];
  /** Which blotch each cell belongs to, row by row; -1 for none. */
  cells: { columns: number; rows: number; blotchOf: number[] };
};

const cellMm = 2.5;
/** Side by side 1 is just visible; a patch is one that nobody overlooks. */
const leastDeltaE = 3;
/** And so many times the face's own usual difference, so that an uneven face is not all patches. */
const timesUsual = 3;
const leastCells = 2;
/** A pixel with a channel this bright is a glint of the light and no colour. */
const glintByte = 250;

/**
 * Mean colour, evenness and blotches of a face, without what the mask leaves out (a hole, a stamp, a label).
 *
 * Formula  mean CIELAB of cells of 2.5 mm; unevenness = standard deviation of their L*; a blotch = two or more touching cells that differ
 *          from the median colour by CIEDE2000 above 3 and above 3 times the median difference, all lighter or all darker
 * Units    CIELAB (D65), mm from the coupon's top left, mm²
 * Source   our own; CIE 15 and CIE 142 for the colour
 * Status   common practice
 * Holds    for a coupon cut out square on in even, neutral light (by the card); patches smaller than two cells are not told apart
 * Refuses  a face of fewer than 3 cells each way, or one that is mostly glare
 */
export function faceColour(
  image: RgbImage,
  face: FaceRectangle,
  size: SizeMm,
  judged: RustMask | null = null,
): FaceColour {
  const grid = cellGrid(image, face, size);
  const { labs, leftOut } = cellColours(image, face, grid, judged);
  const seen = labs.filter((lab) => lab !== null);
  if (labs.length - leftOut < 9)
    throw new InputError("hiddenMm", "nearly the whole face", "some face left to see a colour on");
  if (seen.length < (labs.length - leftOut) / 2)
    throw new InputError("photo", "a face that is mostly glare", "a face in soft light");
  const lab = meanOf(seen);
  const typical = medianLab(seen);
  const off = labs.map((one) => (one === null ? 0 : deltaE2000({ first: typical, second: one })));
  const limit = Math.max(leastDeltaE, timesUsual * median(off)!);
  const side = labs.map((one, at) => (one === null || off[at]! <= limit ? 0 : one.lStar > typical.lStar ? 1 : -1));
  const groups = touching(side, grid.columns).filter((cells) => cells.length >= leastCells);
  const blotchOf = new Array<number>(labs.length).fill(-1);
  for (const [index, cells] of groups.entries()) for (const cell of cells) blotchOf[cell] = index;
  return {
    lab,
    lightnessSd: deviation(seen, ({ lStar }) => lStar)!,
    blotches: groups.map((cells) => blotch(cells, { grid, off, lighter: side[cells[0]!] === 1 })),
    cells: { columns: grid.columns, rows: grid.rows, blotchOf },
  };
}

type Grid = { columns: number; rows: number; wideMm: number; highMm: number; leftMm: number; topMm: number };

function cellGrid(image: RgbImage, face: FaceRectangle, size: SizeMm): Grid {
  const [mmX, mmY] = [size.lengthMm / image.widthPx, size.widthMm / image.heightPx];
  const [lengthMm, widthMm] = [(face.right - face.left) * mmX, (face.bottom - face.top) * mmY];
  const [columns, rows] = [Math.floor(lengthMm / cellMm), Math.floor(widthMm / cellMm)];
  if (Math.min(columns, rows) < 3)
    throw new InputError(
      "face",
      `${lengthMm.toFixed(1)} x ${widthMm.toFixed(1)} mm`,
      `at least ${3 * cellMm} mm each way`,
    );
  return {
    columns,
    rows,
    wideMm: lengthMm / columns,
    highMm: widthMm / rows,
    leftMm: face.left * mmX,
    topMm: face.top * mmY,
  };
}

/** A cell is null where it is mostly glints, or mostly left out, as so many of them are. */
function cellColours(
  image: RgbImage,
  face: FaceRectangle,
  { columns, rows }: Grid,
  judged: RustMask | null,
): { labs: (Lab | null)[]; leftOut: number } {
  const { lightness, a, b } = labImage(image);
  const sums = Array.from({ length: columns * rows }, () => ({
    lStar: 0,
    aStar: 0,
    bStar: 0,
    pixels: 0,
    glints: 0,
    leftOut: 0,
  }));
  for (let y = face.top; y < face.bottom; y++) {
    const row = Math.min(rows - 1, Math.floor(((y - face.top + 0.5) / (face.bottom - face.top)) * rows));
    for (let x = face.left; x < face.right; x++) {
      const column = Math.min(columns - 1, Math.floor(((x - face.left + 0.5) / (face.right - face.left)) * columns));
      const sum = sums[row * columns + column]!;
      const at = y * image.widthPx + x;
      if (judged?.marks[at] === marks.leftOut) {
        sum.leftOut++;
        continue;
      }
      if (Math.max(image.rgb[3 * at]!, image.rgb[3 * at + 1]!, image.rgb[3 * at + 2]!) >= glintByte) {
        sum.glints++;
        continue;
      }
      sum.lStar += lightness[at]!;
      sum.aStar += a[at]!;
      sum.bStar += b[at]!;
      sum.pixels++;
    }
  }
  const hidden = ({ pixels, glints, leftOut }: (typeof sums)[number]) => leftOut >= pixels + glints;
  return {
    labs: sums.map((sum) =>
      hidden(sum) || sum.pixels <= sum.glints
        ? null
        : { lStar: sum.lStar / sum.pixels, aStar: sum.aStar / sum.pixels, bStar: sum.bStar / sum.pixels },
    ),
    leftOut: sums.filter(hidden).length,
  };
}

/** Groups of cells of one side (1 or -1) that share a border. */
function touching(side: readonly number[], columns: number): number[][] {
  const taken = new Set<number>();
  const groups: number[][] = [];
  for (const [start, sign] of side.entries()) {
    if (sign === 0 || taken.has(start)) continue;
    const group = [start];
    taken.add(start);
    for (let next = 0; next < group.length; next++) {
      const cell = group[next]!;
      const beside = [cell - columns, cell + columns];
      if (cell % columns > 0) beside.push(cell - 1);
      if (cell % columns < columns - 1) beside.push(cell + 1);
      for (const other of beside)
        if (side[other] === sign && !taken.has(other)) {
          taken.add(other);
          group.push(other);
        }
    }
    groups.push(group);
  }
  return groups.sort((one, other) => other.length - one.length);
}

function blotch(cells: readonly number[], of: { grid: Grid; off: readonly number[]; lighter: boolean }): Blotch {
  const { columns, wideMm, highMm, leftMm, topMm } = of.grid;
  return {
    xMm: leftMm + wideMm * (mean(cells, (cell) => cell % columns)! + 0.5),
    yMm: topMm + highMm * (mean(cells, (cell) => Math.floor(cell / columns))! + 0.5),
    areaMm2: cells.length * wideMm * highMm,
    deltaE: mean(cells, (cell) => of.off[cell]!)!,
    lighter: of.lighter,
  };
}

function meanOf(labs: readonly Lab[]): Lab {
  const of = (part: keyof Lab) => mean(labs, (lab) => lab[part])!;
  return { lStar: of("lStar"), aStar: of("aStar"), bStar: of("bStar") };
}

function medianLab(labs: readonly Lab[]): Lab {
  const of = (part: keyof Lab) => median(labs, (lab) => lab[part])!;
  return { lStar: of("lStar"), aStar: of("aStar"), bStar: of("bStar") };
}
