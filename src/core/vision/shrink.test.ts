import { describe, expect, test } from "vitest";
import type { RgbImage } from "./raster.ts";
import { shrunk } from "./shrink.ts";

/** One value in all three channels. */
const grey = (widthPx: number, values: readonly number[]): RgbImage => ({
  widthPx,
  heightPx: values.length / widthPx,
  rgb: Uint8Array.from(values.flatMap((value) => [value, value, value])),
});
const greys = (image: RgbImage) => Array.from(image.rgb.filter((_, at) => at % 3 === 0));

describe("a smaller copy", () => {
  test("halved by hand: each new pixel is the mean of four", () => {
    const image = grey(4, [0, 10, 100, 100, 20, 30, 100, 100]);
    const small = shrunk(image, 2);
    expect(small).toMatchObject({ widthPx: 2, heightPx: 1 });
    expect(greys(small)).toEqual([15, 100]);
  });

  test("one that is small enough is the same picture", () => {
    const image = grey(2, [1, 2]);
    expect(shrunk(image, 2)).toBe(image);
  });

  test("at any ratio every old pixel counts once: the mean of a slope stays", () => {
    const image = grey(
      97,
      Array.from({ length: 97 * 40 }, (_, at) => (at % 97) * 2),
    );
    for (const longest of [96, 60, 33, 7]) {
      const small = shrunk(image, longest);
      expect(Math.max(small.widthPx, small.heightPx)).toBe(longest);
      const values = greys(small);
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      expect(Math.abs(mean - 96)).toBeLessThan(2);
    }
  });

  test("refuses no size at all", () => {
    expect(() => shrunk(grey(2, [1, 2]), 0)).toThrow(/^longestPx is 0/);
  });
});
