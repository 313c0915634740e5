/**
 * Sums over the square around a pixel, for the few pixels that ask: each column of the square is summed once and moved down with the rows.
 *
 * Units    px; the unit of what is summed
 * Source   running sums over a square window
 * Status   computed
 */

export type Square = { widthPx: number; heightPx: number; reachPx: number };

/** Adds `times` (1 or -1) what pixel `at` has to the values in `sums` that begin at `to`. */
export type AddPixel = (at: number, times: number, sums: Float64Array, to: number) => void;

/**
 * `count` sums over (2 reachPx + 1)² px, less where the picture ends. The array that comes back is written anew at the next call.
 * Cheapest when rows are asked from top to bottom.
 */
export function sumsNearby({ widthPx, heightPx, reachPx }: Square, count: number, add: AddPixel) {
  const columns = new Float64Array(widthPx * count);
  const summedAt = new Int32Array(widthPx).fill(-2);
  const sums = new Float64Array(count);
  const bring = (column: number, row: number) => {
    const to = column * count;
    if (summedAt[column] === row - 1) {
      if (row + reachPx < heightPx) add((row + reachPx) * widthPx + column, 1, columns, to);
      if (row - reachPx > 0) add((row - reachPx - 1) * widthPx + column, -1, columns, to);
    } else {
      columns.fill(0, to, to + count);
      const bottom = Math.min(heightPx - 1, row + reachPx);
      for (let y = Math.max(0, row - reachPx); y <= bottom; y++) add(y * widthPx + column, 1, columns, to);
    }
    summedAt[column] = row;
  };
  let [sumRow, sumColumn] = [-1, -1];
  const move = (column: number, row: number, times: number) => {
    if (column < 0 || column >= widthPx) return;
    if (summedAt[column] !== row) bring(column, row);
    for (let i = 0, from = column * count; i < count; i++, from++) sums[i]! += times * columns[from]!;
  };
  return (row: number, column: number): Float64Array => {
    const step = column - sumColumn;
    if (row === sumRow && step >= 0 && step <= reachPx)
      for (let on = 1; on <= step; on++) {
        move(sumColumn + on + reachPx, row, 1);
        move(sumColumn + on - reachPx - 1, row, -1);
      }
    else {
      sums.fill(0);
      for (let near = column - reachPx; near <= column + reachPx; near++) move(near, row, 1);
    }
    sumRow = row;
    sumColumn = column;
    return sums;
  };
}
