/**
 * A whole picture from sRGB to CIELAB, by tables.
 *
 * The transfer curve and white are those of IEC 61966-2-1 (D65, 2 degree observer). Sums of three tables give X, Y and Z
 * relative to white; the cube root is looked up in 65 536 steps, which is within 0.1 of the formula in each of L*, a*, b*.
 *
 * Units    sRGB bytes in; L* 0 to 100, a*, b* out
 * Source   IEC 61966-2-1 (sRGB), CIE 15 (CIELAB)
 * Status   published
 */
import { addressOf, inRoom, kept, lentFloats, pixelLoops } from "./pixel-loops.ts";
import { type RgbImage, requireRgbImage } from "./raster.ts";

export type LabImage = {
  widthPx: number;
  heightPx: number;
  /** CIELAB, D65: lightness 0 to 100, a* (green to red), b* (blue to yellow). */
  lightness: Float32Array;
  a: Float32Array;
  b: Float32Array;
};

/** Rows X, Y, Z of the sRGB matrix, each divided by the white it sums to (IEC 61966-2-1). */
const xyzOfRgb = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
] as const;
const steps = 65536;

/** Light by sRGB byte, 0 to 1 (IEC 61966-2-1). */
export const linearLight = Float32Array.from({ length: 256 }, (_, byte) => {
  const share = byte / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
});

/**
 * For the loop: X by byte with Y above it (16 bits each, so that sums of three stay apart), by red, green and blue; Z likewise; then the cube roots in 65 536 steps.
 */
let tables: Int32Array | null = null;

function madeTables(): Int32Array {
  const [x, y, z] = xyzOfRgb.map((row) => {
    const white = row[0] + row[1] + row[2];
    return row.map((weight) => Int32Array.from(linearLight, (value) => (value * weight * (steps - 3)) / white + 0.5));
  }) as [Table3, Table3, Table3];
  const xy = x.map((table, channel) => table.map((value, byte) => value | (y[channel]![byte]! << 16)));
  const root = Float32Array.from({ length: steps }, (_, at) => {
    const t = at / (steps - 3);
    return t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29;
  });
  const made = new Int32Array(6 * 256 + steps);
  for (const [at, table] of [...xy, ...z].entries()) made.set(table, 256 * at);
  made.set(new Int32Array(root.buffer), 6 * 256);
  return made;
}

type Table3 = [red: Int32Array, green: Int32Array, blue: Int32Array];

/** CIELAB of each pixel of an sRGB picture; L* 0 to 100, a* and b* without unit. */
export function labImage(image: RgbImage): LabImage {
  requireRgbImage("image", image);
  tables ??= madeTables();
  const { widthPx, heightPx, rgb } = image;
  const pixels = widthPx * heightPx;
  const madeOnce = tables;
  return kept(() => {
    const [lightness, a, b] = [lentFloats(pixels), lentFloats(pixels), lentFloats(pixels)];
    inRoom(() =>
      pixelLoops().toLab(addressOf(rgb), pixels, addressOf(madeOnce), lightness.byteOffset, a.byteOffset, b.byteOffset),
    );
    return { widthPx, heightPx, lightness, a, b };
  });
}
