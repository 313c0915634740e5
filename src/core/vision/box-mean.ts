/**
 * Mean of each pixel's square neighbourhood, by running sums: the same cost for every radius. Windows end at the picture's edge.
 *
 * Units    px; the plane's own unit
 * Source   running sums over a square window
 * Status   computed
 */
import { takenPlane } from "./planes.ts";

/** Mean over (2 radius + 1)² px, less where the picture ends; the unit of the plane stays. */
export function boxMean(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  if (radiusPx === 1 && widthPx > 1) return meanOver3(plane, widthPx, heightPx);
  const mean = takenPlane(plane.length);
  // Of each column: the rows within reach. Doubles, so that what is taken off again leaves nothing behind.
  const columns = new Float64Array(widthPx);
  for (let row = 0; row < Math.min(radiusPx, heightPx); row++) moveRows(columns, plane, row * widthPx, -1);
  for (let row = 0; row < heightPx; row++) {
    const entering = row + radiusPx < heightPx ? row + radiusPx : -1;
    const leaving = Math.max(row - radiusPx - 1, -1);
    moveRows(columns, plane, entering * widthPx, leaving * widthPx);
    const rows = (entering < 0 ? heightPx - 1 : entering) - leaving;
    meansAlong(columns, radiusPx, rows, mean.subarray(row * widthPx, (row + 1) * widthPx));
  }
  return mean;
}

/** The smallest window is by far the most asked for: summed as it goes along, it needs no columns. */
function meanOver3(plane: Float32Array, widthPx: number, heightPx: number): Float32Array {
  const mean = takenPlane(plane.length);
  const none = new Float32Array(widthPx);
  const rowOf = (row: number) =>
    row < 0 || row >= heightPx ? none : plane.subarray(row * widthPx, (row + 1) * widthPx);
  for (let row = 0; row < heightPx; row++) {
    const rows = Math.min(row + 1, heightPx - 1) - Math.max(row - 1, 0) + 1;
    meansOf3(rowOf(row - 1), rowOf(row), rowOf(row + 1), rows, mean.subarray(row * widthPx, (row + 1) * widthPx));
  }
  return mean;
}

function meansOf3(
  above: Float32Array,
  here: Float32Array,
  below: Float32Array,
  rows: number,
  mean: Float32Array,
): void {
  const last = mean.length - 1;
  const whole = 1 / (rows * 3);
  let before = above[0]! + here[0]! + below[0]!;
  let own = above[1]! + here[1]! + below[1]!;
  mean[0] = (before + own) / (rows * 2);
  for (let column = 1; column < last; column++) {
    const after = above[column + 1]! + here[column + 1]! + below[column + 1]!;
    mean[column] = (before + own + after) * whole;
    before = own;
    own = after;
  }
  mean[last] = (before + own) / (rows * 2);
}

/** Adds the row that begins at `entering` and takes off the one at `leaving`; below 0 there is none. */
function moveRows(columns: Float64Array, plane: Float32Array, entering: number, leaving: number): void {
  const width = columns.length;
  if (entering >= 0 && leaving >= 0)
    for (let at = 0; at < width; at++) columns[at]! += plane[entering + at]! - plane[leaving + at]!;
  else if (entering >= 0) for (let at = 0; at < width; at++) columns[at]! += plane[entering + at]!;
  else if (leaving >= 0) for (let at = 0; at < width; at++) columns[at]! -= plane[leaving + at]!;
}

function meansAlong(columns: Float64Array, radiusPx: number, rows: number, mean: Float32Array): void {
  const widthPx = columns.length;
  const innerFrom = Math.min(radiusPx + 1, widthPx);
  const innerTo = Math.max(innerFrom, widthPx - radiusPx);
  let sum = 0;
  for (let column = 0; column < Math.min(radiusPx, widthPx); column++) sum += columns[column]!;
  for (let column = 0; column < innerFrom; column++) {
    const entering = column + radiusPx;
    if (entering < widthPx) sum += columns[entering]!;
    mean[column] = sum / (rows * (Math.min(entering, widthPx - 1) + 1));
  }
  // Away from the sides no window is cut: most of the picture, so it stays free of questions.
  const whole = 1 / (rows * (2 * radiusPx + 1));
  for (let column = innerFrom; column < innerTo; column++) {
    sum += columns[column + radiusPx]! - columns[column - radiusPx - 1]!;
    mean[column] = sum * whole;
  }
  for (let column = innerTo; column < widthPx; column++) {
    const leaving = column - radiusPx - 1;
    sum -= columns[leaving]!;
    mean[column] = sum / (rows * (widthPx - 1 - leaving));
  }
}
