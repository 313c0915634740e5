/**
 * The map between two planes seen in perspective, from four or more pairs of points by least squares.
 *
 * Units    those of the points: mm on the card, px in the picture
 * Source   projective geometry; points are shifted and scaled first, so that the equations are well balanced
 * Status   computed
 */
import { InputError, requireFinite } from "../input-error.ts";
import { solveLinear } from "../numeric/solve-linear.ts";

export type Point = readonly [number, number];
/** Row by row; (x, y, 1) times it, divided by the third, is the other plane's point. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** Maps `from` onto `to`, point by point. Refuses fewer than four pairs and points that lie on one line. */
export function homographyOf(from: readonly Point[], to: readonly Point[]): Homography {
  if (from.length < 4 || to.length !== from.length)
    throw new InputError("from", `${from.length} and ${to.length} points`, "four or more pairs of points");
  for (const [x, y] of [...from, ...to]) {
    requireFinite("from", x);
    requireFinite("from", y);
  }
  const source = balancing(from);
  const target = balancing(to);
  const normal = Array.from({ length: 8 }, () => new Array<number>(8).fill(0));
  const right = new Array<number>(8).fill(0);
  const addEquation = (row: readonly number[], value: number) => {
    for (let i = 0; i < 8; i++) {
      right[i]! += row[i]! * value;
      for (let j = 0; j < 8; j++) normal[i]![j]! += row[i]! * row[j]!;
    }
  };
  for (let at = 0; at < from.length; at++) {
    const [u, v] = balanced(source, from[at]!);
    const [x, y] = balanced(target, to[at]!);
    addEquation([u, v, 1, 0, 0, 0, -u * x, -v * x], x);
    addEquation([0, 0, 0, u, v, 1, -u * y, -v * y], y);
  }
  const [a, b, c, d, e, f, g, h] = solveLinear(normal, right) as EightNumbers;
  const { x: tx, y: ty, scale: ts } = target;
  const { x: sx, y: sy, scale: ss } = source;
  // Undo the balancing on both sides.
  const middle: Homography = [a, b, c, d, e, f, g, h, 1];
  const back: Homography = [1 / ts, 0, tx, 0, 1 / ts, ty, 0, 0, 1];
  const forth: Homography = [ss, 0, -ss * sx, 0, ss, -ss * sy, 0, 0, 1];
  return composed(back, composed(middle, forth));
}

type EightNumbers = [number, number, number, number, number, number, number, number];
type Balance = { x: number; y: number; scale: number };

function balancing(points: readonly Point[]): Balance {
  const x = points.reduce((sum, point) => sum + point[0], 0) / points.length;
  const y = points.reduce((sum, point) => sum + point[1], 0) / points.length;
  const spread = points.reduce((sum, point) => sum + Math.hypot(point[0] - x, point[1] - y), 0) / points.length;
  if (!(spread > 0)) throw new InputError("from", "one point, repeated", "points that span a plane");
  return { x, y, scale: Math.SQRT2 / spread };
}

const balanced = ({ x, y, scale }: Balance, point: Point): [number, number] => [
  (point[0] - x) * scale,
  (point[1] - y) * scale,
];

/** First `second`, then `first`. */
export function composed(first: Homography, second: Homography): Homography {
  const cell = (row: number, column: number) =>
    first[3 * row]! * second[column]! +
    first[3 * row + 1]! * second[3 + column]! +
    first[3 * row + 2]! * second[6 + column]!;
  return [cell(0, 0), cell(0, 1), cell(0, 2), cell(1, 0), cell(1, 1), cell(1, 2), cell(2, 0), cell(2, 1), cell(2, 2)];
}

/** Where a point of the first plane lies in the second. */
export function mapped(h: Homography, [x, y]: Point): [number, number] {
  const w = h[6] * x + h[7] * y + h[8];
  return [(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w];
}

/** The way back, up to a common factor. */
export function inverted(h: Homography): Homography {
  const [a, b, c, d, e, f, g, k, i] = h;
  return [
    e * i - f * k,
    c * k - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * k - e * g,
    b * g - a * k,
    a * e - b * d,
  ];
}

/** How the map stretches at a point: units of the second plane per unit of the first, along its longest and shortest direction. */
export function stretchAt(h: Homography, point: Point): { most: number; least: number } {
  const w = h[6] * point[0] + h[7] * point[1] + h[8];
  const [x, y] = mapped(h, point);
  const xu = (h[0] - h[6] * x) / w;
  const xv = (h[1] - h[7] * x) / w;
  const yu = (h[3] - h[6] * y) / w;
  const yv = (h[4] - h[7] * y) / w;
  const sum = xu * xu + xv * xv + yu * yu + yv * yv;
  const det = xu * yv - xv * yu;
  const root = Math.sqrt(Math.max(0, sum * sum - 4 * det * det));
  return { most: Math.sqrt((sum + root) / 2), least: Math.sqrt(Math.max(0, (sum - root) / 2)) };
}
