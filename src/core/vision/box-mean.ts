/**
 * Mean of each pixel's square neighbourhood, by running sums: the same cost for every radius. Windows end at the picture's edge.
 *
 * Units    px; the plane's own unit
 * Source   running sums over a square window
 * Status   computed
 */

/** Mean over (2 radius + 1)² px, less where the picture ends; the unit of the plane stays. */
export function boxMean(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  return meanOfColumns(meanOfRows(plane, widthPx, heightPx, radiusPx), widthPx, heightPx, radiusPx);
}

function meanOfRows(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  const mean = new Float32Array(plane.length);
  const innerFrom = Math.min(radiusPx + 1, widthPx);
  const innerTo = Math.max(innerFrom, widthPx - radiusPx);
  const whole = 1 / (2 * radiusPx + 1);
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    let sum = 0;
    for (let column = 0; column < Math.min(radiusPx, widthPx); column++) sum += plane[start + column]!;
    const nearSide = (column: number) => {
      const entering = column + radiusPx;
      const leaving = column - radiusPx - 1;
      if (entering < widthPx) sum += plane[start + entering]!;
      if (leaving >= 0) sum -= plane[start + leaving]!;
      mean[start + column] = sum / (Math.min(entering, widthPx - 1) - Math.max(leaving, -1));
    };
    for (let column = 0; column < innerFrom; column++) nearSide(column);
    // Away from the sides no window is cut: most of the picture, so it stays free of questions.
    for (let at = start + innerFrom; at < start + innerTo; at++) {
      sum += plane[at + radiusPx]! - plane[at - radiusPx - 1]!;
      mean[at] = sum * whole;
    }
    for (let column = innerTo; column < widthPx; column++) nearSide(column);
  }
  return mean;
}

/** Row by row with one sum per column, so that memory is read in its order. */
function meanOfColumns(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  const mean = new Float32Array(plane.length);
  const sums = new Float64Array(widthPx);
  const nothing = new Float32Array(widthPx);
  const rowAt = (row: number) =>
    row < 0 || row >= heightPx ? nothing : plane.subarray(row * widthPx, (row + 1) * widthPx);
  for (let row = 0; row < radiusPx; row++) {
    const entering = rowAt(row);
    for (let column = 0; column < widthPx; column++) sums[column]! += entering[column]!;
  }
  for (let row = 0; row < heightPx; row++) {
    const entering = rowAt(row + radiusPx);
    const leaving = rowAt(row - radiusPx - 1);
    const share = 1 / (Math.min(row + radiusPx, heightPx - 1) - Math.max(row - radiusPx - 1, -1));
    const start = row * widthPx;
    for (let column = 0; column < widthPx; column++) {
      const sum = sums[column]! + entering[column]! - leaving[column]!;
      sums[column] = sum;
      mean[start + column] = sum * share;
    }
  }
  return mean;
}
