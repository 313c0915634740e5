/**
 * The search over ln scale: the profile of the log-likelihood (at each scale the best locations) is looked at over a wide range,
 * because some data have no maximum at a finite shape, and a fit that runs off there must not be printed.
 *
 * Units    ln of the scale, which has none; the ends of a profile in the unit of its curve
 * Source   profile likelihood, Meeker and Escobar 1998; the refusal of fits without a maximum is this project's rule
 * Status   memory
 */
import { brentMinimum, brentRoot } from "../numeric/brent.ts";

/** ln scale from shape 1100 to shape 0.018: a maximum must lie inside, higher than both ends. */
const shapeRange = { from: -7, to: 4 };
/** Where the ends of an interval may still be found. */
export const widestRange = { from: -12, to: 12 };
/** How much higher than both ends of the range a maximum must be. */
const leastRise = 1e-7;

/** Value of the profile and its slope by ln scale (at the best location the slope along the profile is the partial one). */
export type ProfilePoint = { value: number; byLogScale: number };

/** ln scale at the maximum; null when the profile is highest at an end of the range: no finite shape. */
export function bestLogScale(profile: (logScale: number) => ProfilePoint): number | null {
  const grid = gridOver(profile, { ...shapeRange, stride: 0.125 });
  const top = highestOf(grid);
  const ends = Math.max(grid[0]!.value, grid[grid.length - 1]!.value);
  if (!(grid[top]!.value > ends + leastRise)) return null;
  return topBetween(profile, grid[top - 1]!.logScale, grid[top + 1]!.logScale);
}

/** Largest value of a curve over ln scale that may have several tops: a grid over the widest range, then the best of its places. */
export function highestOverScale(curve: (logScale: number) => ProfilePoint): number {
  const grid = gridOver(curve, { ...widestRange, stride: 0.25 });
  const top = highestOf(grid);
  const best = grid[top]!.value;
  if (top === 0 || top === grid.length - 1) return best;
  return Math.max(best, curve(topBetween(curve, grid[top - 1]!.logScale, grid[top + 1]!.logScale)).value);
}

function gridOver(
  curve: (logScale: number) => ProfilePoint,
  { from, to, stride }: { from: number; to: number; stride: number },
) {
  const steps = Math.round((to - from) / stride);
  return Array.from({ length: steps + 1 }, (_, at) => {
    const logScale = from + at * stride;
    return { logScale, value: curve(logScale).value };
  });
}

function highestOf(grid: readonly { value: number }[]): number {
  return grid.reduce((best, { value }, at) => (value > grid[best]!.value ? at : best), 0);
}

function topBetween(curve: (logScale: number) => ProfilePoint, from: number, to: number): number {
  const slope = (logScale: number) => curve(logScale).byLogScale;
  // Two tops within one stride would turn the slopes round; then the better one is searched by height alone.
  if (slope(from) > 0 && slope(to) < 0) return brentRoot(slope, from, to, 1e-12);
  return brentMinimum((logScale) => -curve(logScale).value, from, to, 1e-10).x;
}

/**
 * Where a profile has fallen by `allowed` below its maximum, walking from `start` in steps that grow; null when it has not by
 * `limit`: it levels off, and that end does not exist.
 */
export function profileEnd(
  fall: (x: number) => number,
  { start, limit, allowed }: { start: number; limit: number; allowed: number },
): number | null {
  const direction = Math.sign(limit - start);
  let inside = start;
  for (let step = 0.1; ; step *= 1.5) {
    const next = direction * Math.min(direction * (inside + direction * step), direction * limit);
    if (fall(next) > allowed) return brentRoot((x) => Math.min(fall(x), 1e6) - allowed, inside, next, 1e-9);
    if (next === limit) return null;
    inside = next;
  }
}
