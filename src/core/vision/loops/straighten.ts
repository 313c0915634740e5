/**
 * A coupon seen square on, bilinearly: `rectify.ts` says what it is.
 *
 * Units    px; sRGB bytes
 * Source   bilinear sampling under a perspective
 * Status   common practice
 */

/**
 * Rows of a picture of `widthPx` x `heightPx` px from one of `photoWidth` x `photoHeight` px. `perspective`: eight doubles, from 0 to
 * 1 along both sides of the coupon to px of the photograph.
 */
export function straighten(
  photo: usize,
  photoWidth: i32,
  photoHeight: i32,
  perspective: usize,
  rgb: usize,
  widthPx: i32,
  heightPx: i32,
): void {
  // Shares between neighbours in 1/64: whole numbers are quicker, and finer than a byte can tell.
  const lastX = i32x4.splat((photoWidth - 1) << 6);
  const lastY = i32x4.splat((photoHeight - 1) << 6);
  const rowBytes = <usize>photoWidth * 3;
  const alongX = (load<f64>(perspective) / widthPx) * 64;
  const alongY = (load<f64>(perspective, 24) / widthPx) * 64;
  const alongW = load<f64>(perspective, 48) / widthPx;
  for (let row: i32 = 0; row < heightPx; row++) {
    const v = (<f64>row + 0.5) / heightPx;
    const startX = (load<f64>(perspective, 8) * v + load<f64>(perspective, 16)) * 64;
    const startY = (load<f64>(perspective, 32) * v + load<f64>(perspective, 40)) * 64;
    const startW = load<f64>(perspective, 56) * v + 1;
    // Two neighbours at a time; of an odd row the last has none.
    for (let column: i32 = 0; column < widthPx; column += 2) {
      const u = f64x2.add(f64x2(0.5, 1.5), f64x2.splat(<f64>column));
      const w = f64x2.div(f64x2.splat(1), along(startW, alongW, u));
      const x = inside(f64x2.mul(along(startX, alongX, u), w), lastX);
      const y = inside(f64x2.mul(along(startY, alongY, u), w), lastY);
      sample(photo, i32x4.extract_lane(x, 0), i32x4.extract_lane(y, 0), rowBytes, rgb);
      if (column + 1 < widthPx) sample(photo, i32x4.extract_lane(x, 1), i32x4.extract_lane(y, 1), rowBytes, rgb + 3);
      rgb += 6;
    }
    if ((widthPx & 1) === 1) rgb -= 3;
  }
}

function along(start: f64, step: f64, u: v128): v128 {
  return f64x2.add(f64x2.splat(start), f64x2.mul(f64x2.splat(step), u));
}

/** Half a pixel back, from places to middles of pixels, and half a share on, to the nearest; never beyond the picture. */
function inside(place: v128, last: v128): v128 {
  const whole = i32x4.trunc_sat_f64x2_s_zero(f64x2.sub(place, f64x2.splat(31.5)));
  return i32x4.min_s(last, i32x4.max_s(i32x4.splat(0), whole));
}

/** A place in 1/64 px; at the last column the share of what lies beyond is none, so what is read there counts nothing. */
function sample(photo: usize, x: i32, y: i32, rowBytes: usize, to: usize): void {
  const at = photo + <usize>(y >> 6) * rowBytes + <usize>(x >> 6) * 3;
  const right = x & 63;
  const lower = y & 63;
  const across = i32x4.splat((right << 16) | (64 - right));
  const upper = rowOf(at, across);
  const below = rowOf(lower === 0 ? at : at + rowBytes, across);
  const sum = i32x4.add(i32x4.mul(upper, i32x4.splat(64 - lower)), i32x4.mul(below, i32x4.splat(lower)));
  const levels = i32x4.shr_s(i32x4.add(sum, i32x4.splat(2048)), 12);
  // A fourth byte goes along; the next pixel writes over it.
  v128.store32_lane(to, i8x16.narrow_i16x8_u(i16x8.narrow_i32x4_s(levels, levels), levels), 0);
}

/** Red, green and blue of two pixels side by side, weighed. */
function rowOf(at: usize, across: v128): v128 {
  const bytes = v128.load64_zero(at);
  const pairs = i8x16.swizzle(bytes, i8x16(0, -1, 3, -1, 1, -1, 4, -1, 2, -1, 5, -1, -1, -1, -1, -1));
  return i32x4.dot_i16x8_s(pairs, across);
}
