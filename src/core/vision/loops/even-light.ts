/**
 * The coupon as in even, neutral light: `card-light.ts` says what it is.
 *
 * Units    sRGB bytes; light in steps of its logarithm
 * Source   our own
 * Status   computed
 */

/**
 * Rows of `widthPx` px, each byte with its block's gain on top of its own light. `gains`: red, green and blue of each block of `blockPx` px along a row,
 * in steps; `stepOfByte`: 256 whole numbers; `byteOfStep`: a byte for each sum of both.
 */
export function balanceRows(
  rgb: usize,
  widthPx: i32,
  rows: i32,
  blockPx: i32,
  gains: usize,
  stepOfByte: usize,
  byteOfStep: usize,
  out: usize,
): void {
  for (let row: i32 = 0; row < rows; row++) {
    let gain = gains;
    for (let column: i32 = 0; column < widthPx; column += blockPx) {
      const red = byteOfStep + load<i32>(gain);
      const green = byteOfStep + load<i32>(gain, 4);
      const blue = byteOfStep + load<i32>(gain, 8);
      for (const past = rgb + 3 * <usize>min(blockPx, widthPx - column); rgb < past; rgb += 3, out += 3) {
        store<u8>(out, load<u8>(red + stepAt(stepOfByte, load<u8>(rgb))));
        store<u8>(out, load<u8>(green + stepAt(stepOfByte, load<u8>(rgb, 1))), 1);
        store<u8>(out, load<u8>(blue + stepAt(stepOfByte, load<u8>(rgb, 2))), 2);
      }
      gain += 12;
    }
  }
}

function stepAt(stepOfByte: usize, byte: u8): usize {
  return load<i32>(stepOfByte + ((<usize>byte) << 2));
}
