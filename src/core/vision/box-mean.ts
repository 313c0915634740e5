/** Mean of each pixel's square neighbourhood, by running sums: the same cost for every radius. Windows end at the picture's edge. */

/** Mean over (2 radius + 1)² px, less where the picture ends; the unit of the plane stays. */
export function boxMean(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  return meanOfColumns(meanOfRows(plane, widthPx, heightPx, radiusPx), widthPx, heightPx, radiusPx);
}

function meanOfRows(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  const mean = new Float32Array(plane.length);
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    let sum = 0;
    for (let column = 0; column < Math.min(radiusPx, widthPx); column++) sum += plane[start + column]!;
    for (let column = 0; column < widthPx; column++) {
      const entering = column + radiusPx;
      const leaving = column - radiusPx - 1;
      if (entering < widthPx) sum += plane[start + entering]!;
      if (leaving >= 0) sum -= plane[start + leaving]!;
      mean[start + column] = sum / (Math.min(entering, widthPx - 1) - Math.max(leaving, -1));
    }
  }
  return mean;
}

/** Row by row with one sum per column, so that memory is read in its order. */
function meanOfColumns(plane: Float32Array, widthPx: number, heightPx: number, radiusPx: number): Float32Array {
  const mean = new Float32Array(plane.length);
  const sums = new Float64Array(widthPx);
  const add = (row: number, sign: 1 | -1) => {
    const start = row * widthPx;
    for (let column = 0; column < widthPx; column++) sums[column]! += sign * plane[start + column]!;
  };
  for (let row = 0; row < Math.min(radiusPx, heightPx); row++) add(row, 1);
  for (let row = 0; row < heightPx; row++) {
    const entering = row + radiusPx;
    const leaving = row - radiusPx - 1;
    if (entering < heightPx) add(entering, 1);
    if (leaving >= 0) add(leaving, -1);
    const share = 1 / (Math.min(entering, heightPx - 1) - Math.max(leaving, -1));
    const start = row * widthPx;
    for (let column = 0; column < widthPx; column++) mean[start + column] = sums[column]! * share;
  }
  return mean;
}
