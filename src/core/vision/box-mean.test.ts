import fc from "fast-check";
import { expect, test } from "vitest";
import { boxMean } from "./box-mean.ts";

test("by hand, radius 1 on a row of 3: ends have two neighbours, the middle three", () => {
  expect([...boxMean(Float32Array.of(3, 6, 12), 3, 1, 1)]).toEqual([4.5, 7, 9]);
});

test("is the plain mean over each window, also where it is larger than the picture", () => {
  const picture = fc.record({
    width: fc.integer({ min: 1, max: 9 }),
    height: fc.integer({ min: 1, max: 9 }),
    radius: fc.integer({ min: 0, max: 5 }),
    seed: fc.nat(1000),
  });
  fc.assert(
    fc.property(picture, ({ width, height, radius, seed }) => {
      const plane = Float32Array.from({ length: width * height }, (_, at) => (seed * (at + 3) * 7919) % 101);
      const mean = boxMean(plane, width, height, radius);
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++) {
          const window = [...plane].filter(
            (_, at) => Math.abs((at % width) - x) <= radius && Math.abs(Math.floor(at / width) - y) <= radius,
          );
          const expected = window.reduce((sum, value) => sum + value, 0) / window.length;
          expect(mean[y * width + x]).toBeCloseTo(expected, 3);
        }
    }),
  );
});
