/**
 * The grey copies in which markers are looked for: `grey-image.ts` and `dark-quads.ts` say what they are.
 *
 * Units    px; sRGB bytes
 * Source   our own
 * Status   computed
 */

/** Green of every pixel, or of blocks of `factor` px the mean of their four corners'. Columns and rows of the copy. */
export function reducedGrey(rgb: usize, photoWidth: i32, factor: i32, widthPx: i32, heightPx: i32, grey: usize): void {
  const right = <usize>(3 * (factor - 1));
  const below = right * <usize>photoWidth;
  for (let row: i32 = 0; row < heightPx; row++) {
    let green = rgb + <usize>(row * factor * photoWidth) * 3 + 1;
    for (let column: i32 = 0; column < widthPx; column++) {
      const upper = <u32>load<u8>(green) + load<u8>(green + right);
      const lower = <u32>load<u8>(green + below) + load<u8>(green + below + right);
      store<u8>(grey++, (upper + lower + 2) >> 2);
      green += <usize>(3 * factor);
    }
  }
}

/** Mean and darkest pixel of each place of 4 x 4 px, four places at a time; what is left over at the right and below is not looked at. */
export function coarser(grey: usize, widthPx: i32, columns: i32, rows: i32, plane: usize, darkest: usize): void {
  const rowBytes = <usize>widthPx;
  for (let row: i32 = 0; row < rows; row++) {
    const top = grey + <usize>(4 * row) * rowBytes;
    // The last places of a row are done a second time rather than one by one.
    for (let column: i32 = 0; column < columns; column += 4) {
      const first = <usize>max(0, min(column, columns - 4));
      places(top + 4 * first, rowBytes, plane + 4 * first, darkest + first);
    }
    plane += (<usize>columns) << 2;
    darkest += <usize>columns;
  }
}

function places(at: usize, rowBytes: usize, plane: usize, darkest: usize): void {
  const a = v128.load(at);
  const b = v128.load(at + rowBytes);
  const c = v128.load(at + 2 * rowBytes);
  const d = v128.load(at + 3 * rowBytes);
  const sums = i32x4.add(i32x4.add(sumsOf4(a), sumsOf4(b)), i32x4.add(sumsOf4(c), sumsOf4(d)));
  v128.store(plane, f32x4.mul(f32x4.convert_i32x4_s(sums), f32x4.splat(1.0 / 16)));
  const least = i8x16.min_u(i8x16.min_u(a, b), i8x16.min_u(c, d));
  const ofTwo = i8x16.min_u(least, i16x8.shr_u(least, 8));
  const ofFour = v128.and(i8x16.min_u(ofTwo, i32x4.shr_u(ofTwo, 16)), i32x4.splat(0xff));
  const halves = i16x8.narrow_i32x4_u(ofFour, ofFour);
  v128.store32_lane(darkest, i8x16.narrow_i16x8_u(halves, halves), 0);
}

function sumsOf4(bytes: v128): v128 {
  return i32x4.extadd_pairwise_i16x8_u(i16x8.extadd_pairwise_i8x16_u(bytes));
}
