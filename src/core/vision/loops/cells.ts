/**
 * What a cell of 4 x 4 px holds and what surrounds it: `rust-features.ts` says what they are for.
 *
 * Units    CIELAB in; means, mean squares, and spreads as log(1 + standard deviation) out
 * Source   our own
 * Status   computed
 */

/** Mean and mean square of a plane, by cell; the last cells of a row or column may be cut. */
export function moments(plane: usize, widthPx: i32, heightPx: i32, mean: usize, square: usize): void {
  const cellColumns = (widthPx + 3) >> 2;
  const whole = widthPx >> 2;
  const rowBytes = (<usize>widthPx) << 2;
  for (let top = 0; top < heightPx; top += 4) {
    const rows = min(4, heightPx - top);
    const start = plane + <usize>top * rowBytes;
    const per: f32 = 0.25 / <f32>rows;
    for (let cell = 0; cell < whole; cell++) {
      let at = start + ((<usize>cell) << 4);
      let sum = f32x4.splat(0);
      let squares = f32x4.splat(0);
      for (let row = 0; row < rows; row++) {
        const values = v128.load(at);
        sum = f32x4.add(sum, values);
        squares = f32x4.add(squares, f32x4.mul(values, values));
        at += rowBytes;
      }
      store<f32>(mean, across(sum) * per);
      store<f32>(square, across(squares) * per);
      mean += 4;
      square += 4;
    }
    if (whole === cellColumns) continue;
    cutCell(start + ((<usize>whole) << 4), rowBytes, widthPx & 3, rows, mean, square);
    mean += 4;
    square += 4;
  }
}

function across(four: v128): f32 {
  return (
    f32x4.extract_lane(four, 0) +
    f32x4.extract_lane(four, 1) +
    (f32x4.extract_lane(four, 2) + f32x4.extract_lane(four, 3))
  );
}

function cutCell(start: usize, rowBytes: usize, columns: i32, rows: i32, mean: usize, square: usize): void {
  let sum: f32 = 0;
  let squares: f32 = 0;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const value = load<f32>(start + <usize>row * rowBytes + ((<usize>column) << 2));
      sum += value;
      squares += value * value;
    }
  store<f32>(mean, sum / <f32>(rows * columns));
  store<f32>(square, squares / <f32>(rows * columns));
}

/** Of each cell, the share of its bytes (0 or 1) that are 1. */
export function sharesOf(ones: usize, widthPx: i32, heightPx: i32, shares: usize): void {
  for (let top = 0; top < heightPx; top += 4) {
    const rows = min(4, heightPx - top);
    for (let left = 0; left < widthPx; left += 4) {
      const columns = min(4, widthPx - left);
      let count: u32 = 0;
      for (let row = top; row < top + rows; row++) {
        const at = ones + <usize>(row * widthPx + left);
        if (columns === 4) count += popcnt<u32>(load<u32>(at));
        else for (let column = 0; column < columns; column++) count += load<u8>(at + column);
      }
      store<f32>(shares, <f32>count / <f32>(rows * columns));
      shares += 4;
    }
  }
}

/** Values per cell, in the order of `cellFeatures`. */
const count: usize = 18;

/**
 * The values of every cell that is not passed over; the others keep what they hold. `planes`: addresses (u32), for L*, a*, b* in turn,
 * of mean and mean square over 4, 12, 28 px, then of the colour rule's shares over 12 and 28 px.
 */
export function cellValues(planes: usize, passedOver: usize, cells: i32, to: usize): void {
  const by12 = load<usize>(planes, 72);
  const by28 = load<usize>(planes, 76);
  for (let cell: i32 = 0; cell < cells; cell++) {
    const at = (<usize>cell) << 2;
    if (load<u8>(passedOver + cell) === 0) {
      for (let plane: usize = 0; plane < 3; plane++) {
        store<f32>(to + (plane << 2), load<f32>(load<usize>(planes + 24 * plane, 8) + at));
        store<f32>(to + (plane << 2), load<f32>(load<usize>(planes + 24 * plane, 16) + at), 12);
      }
      const over12 = spread(planes, 8, at);
      store<f32>(to, Mathf.log(1 + spread(planes, 0, at)), 24);
      store<f32>(to, Mathf.log(1 + over12), 28);
      store<f32>(to, Mathf.log(1 + spread(planes, 16, at)), 32);
      store<f32>(to, Mathf.log(1 + spread(planes, 24, at)), 36);
      store<f32>(to, Mathf.log(1 + spread(planes, 48, at)), 40);
      store<f32>(to, Mathf.log(1 + spread(planes, 32, at)), 44);
      store<f32>(to, Mathf.log(1 + spread(planes, 56, at)), 48);
      store<f32>(to, Mathf.log(1 + spread(planes, 40, at)), 52);
      store<f32>(to, Mathf.log(1 + spread(planes, 64, at)), 56);
      store<f32>(to, over12 / (8 + load<f32>(load<usize>(planes, 8) + at)), 60);
      store<f32>(to, load<f32>(by12 + at), 64);
      store<f32>(to, load<f32>(by28 + at), 68);
    }
    to += count << 2;
  }
}

/** Standard deviation from the mean and mean square whose addresses stand at `planes + which`. */
function spread(planes: usize, which: usize, at: usize): f32 {
  const mean = load<f32>(load<usize>(planes + which) + at);
  const square = load<f32>(load<usize>(planes + which, 4) + at);
  return sqrt<f32>(max<f32>(0, square - mean * mean));
}
