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
import { takenPlane } from "./planes.ts";
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

type Tables = { xyz: Int32Array[][]; root: Float32Array };
let tables: Tables | null = null;

function madeTables(): Tables {
  const xyz = xyzOfRgb.map((row) => {
    const white = row[0] + row[1] + row[2];
    return row.map((weight) => Int32Array.from(linearLight, (value) => (value * weight * (steps - 3)) / white + 0.5));
  });
  const root = Float32Array.from({ length: steps }, (_, at) => {
    const t = at / (steps - 3);
    return t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29;
  });
  return { xyz, root };
}

/** CIELAB of each pixel of an sRGB picture; L* 0 to 100, a* and b* without unit. */
export function labImage(image: RgbImage): LabImage {
  requireRgbImage("image", image);
  tables ??= madeTables();
  const pixels = image.widthPx * image.heightPx;
  const lightness = takenPlane(pixels);
  const a = takenPlane(pixels);
  const b = takenPlane(pixels);
  toLab(image.rgb, tables, lightness, a, b);
  return { widthPx: image.widthPx, heightPx: image.heightPx, lightness, a, b };
}

function toLab(rgb: Uint8Array, { xyz, root }: Tables, lightness: Float32Array, a: Float32Array, b: Float32Array) {
  const [[xr, xg, xb], [yr, yg, yb], [zr, zg, zb]] = xyz as unknown as [Row, Row, Row];
  for (let at = 0, byte = 0; at < lightness.length; at++, byte += 3) {
    const red = rgb[byte]!;
    const green = rgb[byte + 1]!;
    const blue = rgb[byte + 2]!;
    const fx = root[xr[red]! + xg[green]! + xb[blue]!]!;
    const fy = root[yr[red]! + yg[green]! + yb[blue]!]!;
    const fz = root[zr[red]! + zg[green]! + zb[blue]!]!;
    lightness[at] = 116 * fy - 16;
    a[at] = 500 * (fx - fy);
    b[at] = 200 * (fy - fz);
  }
}

type Row = [Int32Array, Int32Array, Int32Array];
