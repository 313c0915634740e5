/** From a pixel to CIELAB. */
import { InputError, requireFinite } from "../input-error.ts";

export type Lab = { lStar: number; aStar: number; bStar: number };

/** Linear sRGB to CIE XYZ for white D65 and the 2 degree observer (IEC 61966-2-1). */
const xyzFromLinear = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
] as const;
/** White is what equal channels of 1 give, so that a grey has no colour at all. */
const white = xyzFromLinear.map(([red, green, blue]) => red + green + blue);

/**
 * CIELAB lightness, colour coordinates, chroma and hue of an sRGB pixel.
 *
 * Method   colour.labFromSrgb
 * Formula  sRGB curve to linear light, matrix to XYZ, cube root to L* a* b*; chroma = √(a*² + b*²), hue = atan2(b*, a*)
 * Units    channels 0 to 255, fractions allowed; hue in degrees, 0 to 360
 * Source   IEC 61966-2-1, CIE 15; D65, 2 degree observer
 * Status   memory
 * Holds    for pixels already in sRGB; the hue of a grey means nothing
 * Refuses  a channel outside 0 to 255
 */
export function labFromSrgb(pixel: { red: number; green: number; blue: number }): Lab & {
  chroma: number;
  hueDeg: number;
} {
  const linear = (["red", "green", "blue"] as const).map((channel) => {
    const value = pixel[channel];
    requireFinite(channel, value);
    if (value < 0 || value > 255) throw new InputError(channel, value, "a channel from 0 to 255");
    return linearFromSrgb(value / 255);
  });
  const [fx, fy, fz] = xyzFromLinear.map((row, at) => {
    const amount = row[0] * linear[0]! + row[1] * linear[1]! + row[2] * linear[2]!;
    return labCurve(amount / white[at]!);
  }) as [number, number, number];
  const lab = { lStar: 116 * fy - 16, aStar: 500 * (fx - fy), bStar: 200 * (fy - fz) };
  return { ...lab, chroma: Math.hypot(lab.aStar, lab.bStar), hueDeg: hueDegOf(lab.aStar, lab.bStar) };
}

/** Light of an sRGB channel, both from 0 to 1. */
export function linearFromSrgb(channel: number): number {
  return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
}

/** CIE 15: cube root, with a straight line near black. */
export function labCurve(ratio: number): number {
  return ratio > 216 / 24389 ? Math.cbrt(ratio) : ((24389 / 27) * ratio + 16) / 116;
}

/** Hue angle, 0 to 360 degrees; 0 where there is no colour. */
export function hueDegOf(aStar: number, bStar: number): number {
  if (aStar === 0 && bStar === 0) return 0;
  const degrees = (Math.atan2(bStar, aStar) * 180) / Math.PI;
  return degrees < 0 ? degrees + 360 : degrees;
}
