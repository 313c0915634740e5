/**
 * Mean of each value's square neighbourhood: `box-mean.ts` says what it is.
 *
 * Units    px; the plane's own unit
 * Source   running sums over a square window
 * Status   computed
 */

/** Over 3 x 3 px, less where the picture ends. `columns`: room for a row of values. At least two columns. */
export function meanOver3(plane: usize, widthPx: i32, heightPx: i32, mean: usize, columns: usize): void {
  const rowBytes = (<usize>widthPx) << 2;
  const last = columns + rowBytes - 4;
  for (let row = 0; row < heightPx; row++) {
    const here = plane + <usize>row * rowBytes;
    const above = row > 0 ? here - rowBytes : 0;
    const below = row + 1 < heightPx ? here + rowBytes : 0;
    sumOf3Rows(above, here, below, widthPx, columns);
    const rows: f32 = row === 0 || row + 1 === heightPx ? (heightPx === 1 ? 1 : 2) : 3;
    const to = mean + <usize>row * rowBytes;
    store<f32>(to, (load<f32>(columns) + load<f32>(columns, 4)) / (rows * 2));
    store<f32>(to + rowBytes - 4, (load<f32>(last) + load<f32>(last - 4)) / (rows * 2));
    meansOf3(columns, widthPx, 1 / (rows * 3), to);
  }
}

function sumOf3Rows(above: usize, here: usize, below: usize, widthPx: i32, columns: usize): void {
  // A row that is not there is taken as this one and taken off again in the end: no question in the loop.
  const none = f32x4.splat(0);
  let column: i32 = 0;
  for (; column + 4 <= widthPx; column += 4) {
    const at = (<usize>column) << 2;
    let sum = v128.load(here + at);
    sum = f32x4.add(sum, above !== 0 ? v128.load(above + at) : none);
    sum = f32x4.add(sum, below !== 0 ? v128.load(below + at) : none);
    v128.store(columns + at, sum);
  }
  for (; column < widthPx; column++) {
    const at = (<usize>column) << 2;
    let sum = load<f32>(here + at);
    if (above !== 0) sum += load<f32>(above + at);
    if (below !== 0) sum += load<f32>(below + at);
    store<f32>(columns + at, sum);
  }
}

function meansOf3(columns: usize, widthPx: i32, whole: f32, to: usize): void {
  const wholes = f32x4.splat(whole);
  let column: i32 = 1;
  for (; column + 5 <= widthPx; column += 4) {
    const at = columns + ((<usize>column) << 2);
    const sum = f32x4.add(f32x4.add(v128.load(at - 4), v128.load(at)), v128.load(at, 4));
    v128.store(to + ((<usize>column) << 2), f32x4.mul(sum, wholes));
  }
  for (; column + 1 < widthPx; column++) {
    const at = columns + ((<usize>column) << 2);
    store<f32>(to + ((<usize>column) << 2), (load<f32>(at - 4) + load<f32>(at) + load<f32>(at, 4)) * whole);
  }
}

/** Over (2 radius + 1)² px, less where the picture ends. `columns`: room for a row of doubles. */
export function boxMean(plane: usize, widthPx: i32, heightPx: i32, radiusPx: i32, mean: usize, columns: usize): void {
  // Doubles, so that what is taken off again leaves nothing behind.
  memory.fill(columns, 0, (<usize>widthPx) << 3);
  const rowBytes = (<usize>widthPx) << 2;
  for (let row = 0; row < min(radiusPx, heightPx); row++) moveRow(columns, plane + <usize>row * rowBytes, widthPx, 1);
  for (let row = 0; row < heightPx; row++) {
    const entering = row + radiusPx;
    const leaving = row - radiusPx - 1;
    if (entering < heightPx) moveRow(columns, plane + <usize>entering * rowBytes, widthPx, 1);
    if (leaving >= 0) moveRow(columns, plane + <usize>leaving * rowBytes, widthPx, -1);
    const rows = min(entering, heightPx - 1) - max(leaving, -1);
    meansAlong(columns, widthPx, radiusPx, rows, mean + <usize>row * rowBytes);
  }
}

function moveRow(columns: usize, row: usize, widthPx: i32, times: f64): void {
  for (let at: i32 = 0; at < widthPx; at++) {
    store<f64>(columns, load<f64>(columns) + times * load<f32>(row));
    columns += 8;
    row += 4;
  }
}

function meansAlong(columns: usize, widthPx: i32, radiusPx: i32, rows: i32, mean: usize): void {
  let sum: f64 = 0;
  for (let column = 0; column < min(radiusPx, widthPx); column++) sum += load<f64>(columns + ((<usize>column) << 3));
  const whole: f64 = 1 / <f64>(rows * (2 * radiusPx + 1));
  for (let column = 0; column < widthPx; column++) {
    const entering = column + radiusPx;
    const leaving = column - radiusPx - 1;
    if (entering < widthPx) sum += load<f64>(columns + ((<usize>entering) << 3));
    if (leaving >= 0) sum -= load<f64>(columns + ((<usize>leaving) << 3));
    const isWhole = entering < widthPx && leaving >= -1;
    const across = min(entering, widthPx - 1) - max(leaving, -1);
    store<f32>(mean + ((<usize>column) << 2), <f32>(isWhole ? sum * whole : sum / <f64>(rows * across)));
  }
}
