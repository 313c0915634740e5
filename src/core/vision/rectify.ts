/**
 * The coupon seen square on: perspective taken out, at one scale in px per mm.
 *
 * Units    px, mm, px per mm
 * Source   bilinear sampling under the perspective of the four corners; limits of scale are our own
 * Status   common practice
 */
import { InputError } from "../input-error.ts";
import { type CornersPx, perspectiveOf, pxPerMmInPicture, requireSize, type SizeMm } from "./coupon-plane.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

/** Our own limits. Coarser, a spot of 0.01 % of a small face is lost in one pixel; finer, rust is not told any better. */
const coarsestPxPerMm = 2;
const finestPxPerMm = 8;
const mostPixels = 1_500_000;

export type RectifiedCoupon = { image: RgbImage; pxPerMm: number };

/**
 * The coupon between four corners, sampled bilinearly. Scale in px per mm: the picture's own, at most 8, at most 1.5 million pixels.
 * Refuses corners outside the picture and a coupon that is smaller in it than 2 px per mm.
 */
export function rectify(photo: RgbImage, corners: CornersPx, size: SizeMm): RectifiedCoupon {
  requireRgbImage("photo", photo);
  requireSize(size);
  const perspective = perspectiveOf(corners);
  for (const [at, [x, y]] of corners.entries())
    if (x < 0 || y < 0 || x > photo.widthPx || y > photo.heightPx)
      throw new InputError(
        `cornersPx[${at}]`,
        [x, y],
        `a point inside the picture of ${photo.widthPx} x ${photo.heightPx} px`,
      );
  const inPicture = pxPerMmInPicture(corners, size);
  if (inPicture < coarsestPxPerMm)
    throw new InputError(
      "cornersPx",
      `${inPicture.toFixed(2)} px per mm of the coupon`,
      `at least ${coarsestPxPerMm} px per mm: photograph it from nearer, or check the size in mm`,
    );
  const pxPerMm = Math.min(inPicture, finestPxPerMm, Math.sqrt(mostPixels / (size.lengthMm * size.widthMm)));
  const widthPx = Math.max(1, Math.round(size.lengthMm * pxPerMm));
  const heightPx = Math.max(1, Math.round(size.widthMm * pxPerMm));
  const { a, b, c, d, e, f, g, h } = perspective;
  const straightening = Float64Array.of(a, b, c, d, e, f, g, h);
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  for (let row = 0; row < heightPx; row++)
    sampleRow(photo.rgb, photo.widthPx, photo.heightPx, straightening, rgb, widthPx, heightPx, row);
  return { image: { widthPx, heightPx, rgb }, pxPerMm };
}

/** Shares between neighbours in 1/64: whole numbers are quicker, and finer than a byte can tell. */
const shares = 64;

/** From bytes and numbers alone: an engine forgets how to be quick with objects of whose form it has seen few. */
function sampleRow(
  from: Uint8Array,
  photoWidth: number,
  photoHeight: number,
  straightening: Float64Array,
  rgb: Uint8Array,
  widthPx: number,
  heightPx: number,
  row: number,
): void {
  const [a0, b0, c0, d0, e0, f0, g0, h0] = straightening as unknown as EightNumbers;
  const lastX = (photoWidth - 1) * shares;
  const lastY = (photoHeight - 1) * shares;
  const rowBytes = photoWidth * 3;
  const v = (row + 0.5) / heightPx;
  const alongX = (a0 / widthPx) * shares;
  const alongY = (d0 / widthPx) * shares;
  const alongW = g0 / widthPx;
  const startX = (b0 * v + c0) * shares;
  const startY = (e0 * v + f0) * shares;
  const startW = h0 * v + 1;
  for (let u = 0.5, out = row * widthPx * 3; u < widthPx; u++, out += 3) {
    const w = 1 / (startW + alongW * u);
    // Half a pixel back, from places to middles of pixels, and half a share on, to the nearest.
    let x = ((startX + alongX * u) * w - 31.5) | 0;
    let y = ((startY + alongY * u) * w - 31.5) | 0;
    x = x < 0 ? 0 : Math.min(x, lastX);
    y = y < 0 ? 0 : Math.min(y, lastY);
    const right = x & 63;
    const lower = y & 63;
    const left = shares - right;
    const upper = shares - lower;
    const a = (y >> 6) * rowBytes + (x >> 6) * 3;
    // At the last column or row the share of what lies beyond is none.
    const b = right === 0 ? a : a + 3;
    const down = lower === 0 ? 0 : rowBytes;
    const c = a + down;
    const d = b + down;
    rgb[out] =
      ((from[a]! * left + from[b]! * right) * upper + (from[c]! * left + from[d]! * right) * lower + 2048) >> 12;
    rgb[out + 1] =
      ((from[a + 1]! * left + from[b + 1]! * right) * upper +
        (from[c + 1]! * left + from[d + 1]! * right) * lower +
        2048) >>
      12;
    rgb[out + 2] =
      ((from[a + 2]! * left + from[b + 2]! * right) * upper +
        (from[c + 2]! * left + from[d + 2]! * right) * lower +
        2048) >>
      12;
  }
}

type EightNumbers = [number, number, number, number, number, number, number, number];
