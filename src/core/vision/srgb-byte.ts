/**
 * Light as an sRGB level, fractions kept; light beyond its ends is cut off.
 *
 * Units    light 0 to 1 in, level 0 to 255 out
 * Source   IEC 61966-2-1 (sRGB)
 * Status   published
 */
export function srgbByteOf(light: number): number {
  const share = Math.min(1, Math.max(0, light));
  return 255 * (share <= 0.0031308 ? share * 12.92 : 1.055 * share ** (1 / 2.4) - 0.055);
}
