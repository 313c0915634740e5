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
  return rule.aroundShares.flatMap((share) => {
    const radiusPx = Math.max(3, Math.round(share * Math.max(image.widthPx, image.heightPx)));
    return patches(image, darkPixels(image, radiusPx))
      .map((patch) => quadOf(hullOf(patch)))
      .filter((quad) => quad !== null);
  });
}

function darkPixels({ widthPx, heightPx, grey }: GreyImage, radiusPx: number): Uint8Array {
  const mean = boxMean(grey, widthPx, heightPx, radiusPx);
  const dark = new Uint8Array(grey.length);
  for (let at = 0; at < grey.length; at++) if (grey[at]! < rule.darkerThan * mean[at]! - 2) dark[at] = 1;
  return dark;
}

/** Of each row of a patch, the first and past-the-last column. */
type Patch = { top: number; spans: [number, number][] };

function patches({ widthPx, heightPx }: GreyImage, dark: Uint8Array): Patch[] {
  const found: Patch[] = [];
  const stack = new Int32Array(dark.length);
  for (let start = 0; start < dark.length; start++) {
    if (dark[start] !== 1) continue;
    const rows = new Map<number, [number, number]>();
    let depth = 0;
    stack[depth++] = start;
    dark[start] = 2;
    while (depth > 0) {
      const at = stack[--depth]!;
      const column = at % widthPx;
      const row = (at - column) / widthPx;
      const span = rows.get(row);
      if (!span) rows.set(row, [column, column + 1]);
      else if (column < span[0]) span[0] = column;
      else if (column >= span[1]) span[1] = column + 1;
      for (const [near, there] of [
        [at - 1, column > 0],
        [at + 1, column < widthPx - 1],
        [at - widthPx, row > 0],
        [at + widthPx, row < heightPx - 1],
      ] as const)
        if (there && dark[near] === 1) {
          dark[near] = 2;
          stack[depth++] = near;
        }
    }
    if (rows.size < rule.shortestSidePx) continue;
    const top = Math.min(...rows.keys());
    found.push({ top, spans: Array.from({ length: rows.size }, (_, down) => rows.get(top + down)!) });
  }
  return found;
}

/** Convex hull of a patch, clockwise as seen (y runs down). */
function hullOf({ top, spans }: Patch): Point[] {
  const right: Point[] = [];
  const left: Point[] = [];
  const add = (chain: Point[], point: Point, turn: 1 | -1) => {
    while (chain.length >= 2 && turn * crossed(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
    chain.push(point);
  };
  for (const [down, [from, to]] of spans.entries())
    for (const y of [top + down, top + down + 1]) {
      add(right, [to, y], 1);
      add(left, [from, y], -1);
    }
  return [...right, ...left.reverse()];
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
