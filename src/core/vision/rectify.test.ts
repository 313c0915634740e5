import { describe, expect, test } from "vitest";
import type { CornersPx } from "./coupon-plane.ts";
import type { RgbImage } from "./raster.ts";
import { rectify } from "./rectify.ts";

/** Left half dark, right half bright, split in the middle. */
function split(widthPx: number, heightPx: number): RgbImage {
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  for (let at = 0; at < widthPx * heightPx; at++) rgb.fill(at % widthPx < widthPx / 2 ? 20 : 220, at * 3, at * 3 + 3);
  return { widthPx, heightPx, rgb };
}
const whole = (image: RgbImage): CornersPx => [
  [0, 0],
  [image.widthPx, 0],
  [image.widthPx, image.heightPx],
  [0, image.heightPx],
];

describe("rectified coupon", () => {
  test("square on and at the picture's own scale, nothing changes", () => {
    const photo = split(300, 150);
    const { image, pxPerMm } = rectify(photo, whole(photo), { lengthMm: 100, widthMm: 50 });
    expect(pxPerMm).toBeCloseTo(3, 12);
    expect([image.widthPx, image.heightPx]).toEqual([300, 150]);
    expect(image.rgb.every((value, at) => value === photo.rgb[at])).toBe(true);
  });

  test("turned by a quarter, the split turns with the corners", () => {
    const photo = split(160, 320);
    const [a, b, c, d] = whole(photo);
    const { image } = rectify(photo, [d, a, b, c], { lengthMm: 100, widthMm: 50 });
    expect([image.widthPx, image.heightPx]).toEqual([320, 160]);
    expect(image.rgb[3 * (10 * 320 + 160)]).toBe(20);
    expect(image.rgb[3 * (150 * 320 + 160)]).toBe(220);
  });

  test("scale stops at 8 px per mm and at 1.5 million pixels", () => {
    const close = split(1200, 600);
    expect(rectify(close, whole(close), { lengthMm: 20, widthMm: 10 }).pxPerMm).toBe(8);
    const large = split(4000, 2000);
    const { image } = rectify(large, whole(large), { lengthMm: 400, widthMm: 200 });
    expect(image.widthPx * image.heightPx).toBeLessThanOrEqual(1_500_000 * 1.001);
  });

  test.each([
    ["a corner outside", 301, 100, /cornersPx\[1\].*inside the picture/],
    ["a coupon too small in the picture", 300, 200, /at least 2 px per mm/],
    ["a size of nothing", 300, 0, /sizeMm.lengthMm/],
  ])("refuses %s", (_, right, lengthMm, message) => {
    const corners: CornersPx = [
      [0, 0],
      [right, 0],
      [300, 150],
      [0, 150],
    ];
    expect(() => rectify(split(300, 150), corners, { lengthMm, widthMm: lengthMm === 0 ? 50 : lengthMm })).toThrow(
      message,
    );
  });
});
