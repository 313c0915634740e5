/**
 * Dark four-sided patches on light ground: what could be a marker.
 *
 * A pixel is dark when it lies clearly below the mean around it, so a slow change of light does not matter. Dark pixels that touch
 * form a patch; of its hull, the four points farthest apart are taken for corners, and kept when they enclose nearly all of it.
 *
 * Units    px of the reduced copy
 * Source   our own
 * Status   computed
 */
import { boxMean } from "./box-mean.ts";
import type { GreyImage } from "./grey-image.ts";
import type { Point } from "./homography.ts";
import { addressOf, inRoom, lentBytes, lentFloats, pixelLoops } from "./pixel-loops.ts";

export type Quad = [Point, Point, Point, Point];

const rule = {
  /** Neighbourhood of the mean, as a share of the longer side. Several, since a marker's size in the picture is unknown. */
  aroundShares: [0.012, 0.035],
  /** Dark: below this share of the mean. */
  darkerThan: 0.86,
  shortestSidePx: 12,
  /** The quad must enclose this share of the hull. */
  leastFilled: 0.84,
  /** Opposite sides of a square, tilted and near, differ less than this. */
  mostSideRatio: 2.5,
} as const;

/** Corners in px, clockwise, of every dark quad of the picture; the same place may come once for each neighbourhood. */
export function darkQuads(image: GreyImage): Quad[] {
  if (Math.min(image.widthPx, image.heightPx) < rule.shortestSidePx) return [];
  return inRoom(() => {
    const coarse = coarser(image);
    return rule.aroundShares.flatMap((share) => {
      const radiusPx = Math.max(3, Math.round(share * Math.max(image.widthPx, image.heightPx)));
      return patches(darkRuns(image, coarse, radiusPx))
        .map((patch) => quadOf(hullOf(patch)))
        .filter((quad) => quad !== null);
    });
  });
}

/** The mean around a place changes slowly: it is taken every so many px. */
const meanStepPx = 4;

/** Runs of dark pixels in rows, from the top left on. */
type Runs = { count: number; row: Int32Array; from: Int32Array; past: Int32Array };

function darkRuns({ widthPx, heightPx, grey }: GreyImage, coarse: CoarseGrey, radiusPx: number): Runs {
  const mean = boxMean(coarse.plane, coarse.widthPx, coarse.heightPx, Math.round(radiusPx / meanStepPx));
  const looked = { places: new Int32Array(coarse.widthPx), limits: new Float64Array(coarse.widthPx) };
  const { places, limits } = looked;
  const room = Math.max(4096, widthPx);
  let [row, from, past] = [new Int32Array(room), new Int32Array(room), new Int32Array(room)];
  let count = 0;
  for (let placeRow = 0, y = 0; placeRow < coarse.heightPx; placeRow++) {
    const lookedAt = placesWithDark(coarse, mean, placeRow, looked);
    // What is left over below and at the right belongs to the last place.
    const bottom = placeRow === coarse.heightPx - 1 ? heightPx : y + meanStepPx;
    for (; y < bottom; y++) {
      // Room for a row of nothing but runs of one pixel.
      if (count + widthPx > row.length) [row, from, past] = [twice(row), twice(from), twice(past)];
      let isDark = false;
      let x = 0;
      for (let at = 0; at < lookedAt; at++) {
        const place = places[at]!;
        if (isDark && x < place * meanStepPx) {
          past[count++] = x;
          isDark = false;
        }
        x = place * meanStepPx;
        const limit = limits[at]!;
        for (const to = place === coarse.widthPx - 1 ? widthPx : x + meanStepPx; x < to; x++) {
          if (grey[y * widthPx + x]! < limit === isDark) continue;
          isDark = !isDark;
          if (isDark) {
            row[count] = y;
            from[count] = x;
          } else past[count++] = x;
        }
      }
      if (isDark) past[count++] = x;
    }
  }
  return { count, row, from, past };
}

/** Of a row of places those that hold a dark pixel, and below which grey it is dark: most of a picture has none. How many they are. */
function placesWithDark(
  { widthPx, darkest }: CoarseGrey,
  mean: Float32Array,
  row: number,
  { places, limits }: { places: Int32Array; limits: Float64Array },
): number {
  let count = 0;
  for (let place = 0, at = row * widthPx; place < widthPx; place++, at++) {
    const limit = rule.darkerThan * mean[at]! - 2;
    if (darkest[at]! >= limit) continue;
    places[count] = place;
    limits[count++] = limit;
  }
  return count;
}

function twice(values: Int32Array): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * values.length);
  larger.set(values);
  return larger;
}

/** Of each place its mean and its darkest pixel; 0 where pixels are left over beside it, which nobody has looked at. */
type CoarseGrey = { widthPx: number; heightPx: number; plane: Float32Array; darkest: Uint8Array };

/** A copy in places of 4 x 4 px. */
function coarser({ widthPx, heightPx, grey }: GreyImage): CoarseGrey {
  const columns = Math.floor(widthPx / meanStepPx);
  const rows = Math.floor(heightPx / meanStepPx);
  const plane = lentFloats(columns * rows);
  const darkest = lentBytes(columns * rows);
  pixelLoops().coarser(addressOf(grey), widthPx, columns, rows, plane.byteOffset, darkest.byteOffset);
  if (columns * meanStepPx < widthPx) for (let row = 1; row <= rows; row++) darkest[row * columns - 1] = 0;
  if (rows * meanStepPx < heightPx) darkest.fill(0, (rows - 1) * columns);
  return { widthPx: columns, heightPx: rows, plane, darkest };
}

/** Of each row of a patch, the first and past-the-last column. */
type Patch = { top: number; from: Int32Array; past: Int32Array };

/** Runs that touch from row to row, together; patches lower than a marker are left out. */
function patches(runs: Runs): Patch[] {
  const { count, row, from, past } = runs;
  const first = joinedRuns(runs);
  const bottoms = new Int32Array(count);
  for (let run = 0; run < count; run++) bottoms[first[run]!] = row[run]!;
  const found = new Map<number, Patch>();
  for (let run = 0; run < count; run++) {
    const top = row[first[run]!]!;
    const rows = bottoms[first[run]!]! + 1 - top;
    if (rows < rule.shortestSidePx) continue;
    const patch = found.get(first[run]!) ?? { top, from: new Int32Array(rows).fill(-1), past: new Int32Array(rows) };
    if (first[run] === run) found.set(run, patch);
    const at = row[run]! - top;
    // Runs come from left to right.
    if (patch.from[at] === -1) patch.from[at] = from[run]!;
    patch.past[at] = past[run]!;
  }
  return [...found.values()];
}

/** For each run the first run of its patch. */
function joinedRuns({ count, row, from, past }: Runs): Int32Array {
  const first = new Int32Array(count);
  for (let run = 0; run < count; run++) first[run] = run;
  const firstOf = (run: number) => {
    let at = run;
    while (first[at] !== at) {
      first[at] = first[first[at]!]!;
      at = first[at]!;
    }
    return at;
  };
  for (let run = 0, above = 0; run < count; run++) {
    while (row[above]! < row[run]! - 1 || (row[above] === row[run]! - 1 && past[above]! <= from[run]!)) above++;
    for (let near = above; row[near] === row[run]! - 1 && from[near]! < past[run]!; near++) {
      const [one, other] = [firstOf(run), firstOf(near)];
      if (one < other) first[other] = one;
      else first[one] = other;
    }
  }
  for (let run = 0; run < count; run++) first[run] = firstOf(run);
  return first;
}

/** Convex hull of a patch, clockwise as seen (y runs down). */
function hullOf(patch: Patch): Point[] {
  return [...chainOf(patch, 1), ...chainOf(patch, -1).reverse()];
}

/** The right (1) or the left side of the hull, from the top on. In flat arrays: most points that come are left out again. */
function chainOf({ top, from, past }: Patch, side: 1 | -1): Point[] {
  const ends = side === 1 ? past : from;
  const x = new Int32Array(2 * ends.length);
  const y = new Int32Array(2 * ends.length);
  let count = 0;
  for (let step = 0; step < x.length; step++) {
    const nextX = ends[step >> 1]!;
    const nextY = top + ((step + 1) >> 1);
    while (count >= 2) {
      const [fromX, fromY] = [x[count - 2]!, y[count - 2]!];
      const [overX, overY] = [x[count - 1]!, y[count - 1]!];
      if (side * ((overX - fromX) * (nextY - overY) - (overY - fromY) * (nextX - overX)) > 0) break;
      count--;
    }
    x[count] = nextX;
    y[count++] = nextY;
  }
  return Array.from({ length: count }, (_, at): Point => [x[at]!, y[at]!]);
}

/** Above 0: the way from a over b to c turns right as seen. */
const crossed = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);

function quadOf(hull: Point[]): Quad | null {
  const middle: Point = [mean(hull.map(([x]) => x)), mean(hull.map(([, y]) => y))];
  const first = farthest(hull, (point) => distance(point, middle));
  const third = farthest(hull, (point) => distance(point, first));
  const second = farthest(hull, (point) => -crossed(first, point, third));
  const fourth = farthest(hull, (point) => crossed(first, point, third));
  const clockwise: Quad =
    crossed(first, second, third) > 0 ? [first, second, third, fourth] : [first, fourth, third, second];
  const sides = clockwise.map((corner, at) => distance(corner, clockwise[(at + 1) % 4]!));
  if (Math.min(...sides) < rule.shortestSidePx) return null;
  const ratio = (a: number, b: number) => Math.max(a / b, b / a);
  if (ratio(sides[0]!, sides[2]!) > rule.mostSideRatio || ratio(sides[1]!, sides[3]!) > rule.mostSideRatio) return null;
  return areaOf(clockwise) < rule.leastFilled * areaOf(hull) ? null : clockwise;
}

const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(ax - bx, ay - by);

function farthest(points: readonly Point[], measure: (point: Point) => number): Point {
  return points.reduce((best, point) => (measure(point) > measure(best) ? point : best));
}

function areaOf(points: readonly Point[]): number {
  return Math.abs(
    points.reduce((sum, [x, y], at) => {
      const [nextX, nextY] = points[(at + 1) % points.length]!;
      return sum + (x * nextY - nextX * y) / 2;
    }, 0),
  );
}
