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

/** Mean and darkest pixel of each place of 4 x 4 px; what is left over at the right and below is not looked at. */
export function coarser(grey: usize, widthPx: i32, columns: i32, rows: i32, plane: usize, darkest: usize): void {
  for (let row: i32 = 0; row < rows; row++)
    for (let column: i32 = 0; column < columns; column++) {
      const at = grey + <usize>(4 * (row * widthPx + column));
      const a = v128.load32_zero(at);
      const b = v128.load32_zero(at + <usize>widthPx);
      const c = v128.load32_zero(at + 2 * <usize>widthPx);
      const d = v128.load32_zero(at + 3 * <usize>widthPx);
      const rows12 = i16x8.add(i16x8.extend_low_i8x16_u(a), i16x8.extend_low_i8x16_u(b));
      const rows34 = i16x8.add(i16x8.extend_low_i8x16_u(c), i16x8.extend_low_i8x16_u(d));
      const sums = i16x8.add(rows12, rows34);
      const sum =
        <i32>i16x8.extract_lane_u(sums, 0) +
        i16x8.extract_lane_u(sums, 1) +
        i16x8.extract_lane_u(sums, 2) +
        i16x8.extract_lane_u(sums, 3);
      const least = i8x16.min_u(i8x16.min_u(a, b), i8x16.min_u(c, d));
      const first = min(i8x16.extract_lane_u(least, 0), i8x16.extract_lane_u(least, 1));
      const last = min(i8x16.extract_lane_u(least, 2), i8x16.extract_lane_u(least, 3));
      store<f32>(plane, <f32>sum / 16);
      store<u8>(darkest++, min(first, last));
      plane += 4;
    }
}
