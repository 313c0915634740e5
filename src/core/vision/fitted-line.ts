/**
 * The straight line through points of an edge, strays left out.
 *
 * Units    those of the points
 * Source   least squares across the line (total least squares), three rounds without what lies far off
 * Status   computed
 */
import type { Point } from "./homography.ts";

export type Line = {
  point: Point;
  /** Of length 1. */
  along: Point;
  /** How many of the points lie on it, and the root mean square distance of these. */
  kept: number;
  rms: number;
};

/** Points farther than this times the spread of the rest are strays; never nearer than `stray.leastPx`. */
const farOff = 2.5;
const rounds = 3;

/** Null for fewer than two points. `leastStray`: a point nearer than this is never called a stray. */
export function fittedLine(points: readonly Point[], leastStray: number): Line | null {
  let kept = [...points];
  let line: Line | null = null;
  for (let round = 0; round < rounds && kept.length >= 2; round++) {
    line = lineThrough(kept);
    const limit = Math.max(
      leastStray,
      farOff * medianOf(points.map((point) => Math.abs(awayFrom(line!, point)))) * 1.4826,
    );
    const inside = points.filter((point) => Math.abs(awayFrom(line!, point)) <= limit);
    if (inside.length < 2) break;
    kept = inside;
  }
  return kept.length < 2 ? null : lineThrough(kept);
}

function lineThrough(points: readonly Point[]): Line {
  const x = points.reduce((sum, point) => sum + point[0], 0) / points.length;
  const y = points.reduce((sum, point) => sum + point[1], 0) / points.length;
  let [xx, xy, yy] = [0, 0, 0];
  for (const point of points) {
    xx += (point[0] - x) ** 2;
    xy += (point[0] - x) * (point[1] - y);
    yy += (point[1] - y) ** 2;
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const line = { point: [x, y] as Point, along: [Math.cos(angle), Math.sin(angle)] as Point };
  const sum = points.reduce((total, point) => total + awayFrom(line, point) ** 2, 0);
  return { ...line, kept: points.length, rms: Math.sqrt(sum / points.length) };
}

/** Distance across the line, signed. */
export function awayFrom({ point, along }: Pick<Line, "point" | "along">, [x, y]: Point): number {
  return (x - point[0]) * along[1] - (y - point[1]) * along[0];
}

/** Where two lines meet; null for parallel ones. */
export function meeting(one: Line, other: Line): Point | null {
  const det = one.along[0] * other.along[1] - one.along[1] * other.along[0];
  if (Math.abs(det) < 1e-9) return null;
  const dx = other.point[0] - one.point[0];
  const dy = other.point[1] - one.point[1];
  const t = (dx * other.along[1] - dy * other.along[0]) / det;
  return [one.point[0] + t * one.along[0], one.point[1] + t * one.along[1]];
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
