/**
 * sRGB bytes to CIELAB by tables: `lab-image.ts` says what they hold.
 *
 * Units    sRGB bytes in; L*, a*, b* out
 * Source   IEC 61966-2-1 (sRGB), CIE 15 (CIELAB)
 * Status   published
 */

/** Bytes of one table of 256 whole numbers. */
const table: usize = 1024;

/** Of `pixels` px into three planes. `tables`: X with Y above it by red, green, blue; Z by red, green, blue; then the cube roots. */
export function toLab(rgb: usize, pixels: i32, tables: usize, lightness: usize, a: usize, b: usize): void {
  const root = tables + 6 * table;
  for (let at: i32 = 0; at < pixels; at++) {
    const red = tables + ((<usize>load<u8>(rgb)) << 2);
    const green = tables + ((<usize>load<u8>(rgb, 1)) << 2);
    const blue = tables + ((<usize>load<u8>(rgb, 2)) << 2);
    const xy = load<u32>(red) + load<u32>(green, 1024) + load<u32>(blue, 2048);
    const z = load<u32>(red, 3072) + load<u32>(green, 4096) + load<u32>(blue, 5120);
    const fx = load<f32>(root + ((<usize>(xy & 0xffff)) << 2));
    const fy = load<f32>(root + ((<usize>(xy >> 16)) << 2));
    const fz = load<f32>(root + ((<usize>z) << 2));
    store<f32>(lightness, 116 * fy - 16);
    store<f32>(a, 500 * (fx - fy));
    store<f32>(b, 200 * (fy - fz));
    rgb += 3;
    lightness += 4;
    a += 4;
    b += 4;
  }
}
