import fc from "fast-check";
import { expect, test } from "vitest";
import { labImage } from "./lab-image.ts";
import { cellFeatures, cellPx, rustFeatures } from "./rust-features.ts";

const pictures = fc
  .record({ widthPx: fc.integer({ min: 2, max: 23 }), heightPx: fc.integer({ min: 2, max: 23 }), seed: fc.nat(1000) })
  .map(({ widthPx, heightPx, seed }) => ({
    widthPx,
    heightPx,
    rgb: Uint8Array.from({ length: widthPx * heightPx * 3 }, (_, at) => ((seed + 7) * (at + 3) * 7919) % 251),
  }));

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

test("what surrounds a cell is what plain sums over it and its neighbours give, also where a cell is cut", () => {
  fc.assert(
    fc.property(pictures, (image) => {
      const { widthPx, heightPx } = image;
      const { cells, cellColumns, cellRows, byColour } = rustFeatures(image, null, null);
      const lab = labImage(image);
      const inCell = (plane: ArrayLike<number>, column: number, row: number) =>
        Array.from({ length: widthPx * heightPx }, (_, at) => at)
          .filter(
            (at) =>
              Math.floor((at % widthPx) / cellPx) === column && Math.floor(Math.floor(at / widthPx) / cellPx) === row,
          )
          .map((at) => plane[at]!);
      const around = (value: (column: number, row: number) => number, column: number, row: number) => {
        const near: number[] = [];
        for (let y = Math.max(0, row - 1); y <= Math.min(cellRows - 1, row + 1); y++)
          for (let x = Math.max(0, column - 1); x <= Math.min(cellColumns - 1, column + 1); x++) near.push(value(x, y));
        return mean(near);
      };
      const squares = (plane: ArrayLike<number>) => Array.from(plane, (value) => value * value);
      for (let row = 0; row < cellRows; row++)
        for (let column = 0; column < cellColumns; column++) {
          const feature = (name: (typeof cellFeatures)[number]) =>
            cells[(row * cellColumns + column) * cellFeatures.length + cellFeatures.indexOf(name)]!;
          const own = inCell(lab.lightness, column, row);
          expect(feature("a over 12 px")).toBeCloseTo(
            around((x, y) => mean(inCell(lab.a, x, y)), column, row),
            3,
          );
          const variance = mean(squares(own)) - mean(own) ** 2;
          expect(feature("spread of lightness over 4 px")).toBeCloseTo(Math.log(1 + Math.sqrt(variance)), 2);
          const varianceOver12 =
            around((x, y) => mean(squares(inCell(lab.b, x, y))), column, row) -
            around((x, y) => mean(inCell(lab.b, x, y)), column, row) ** 2;
          expect(feature("spread of b over 12 px")).toBeCloseTo(Math.log(1 + Math.sqrt(varianceOver12)), 2);
          expect(feature("rust by colour over 12 px")).toBeCloseTo(
            around((x, y) => mean(inCell(byColour, x, y)), column, row),
            5,
          );
        }
    }),
    { numRuns: 40 },
  );
});

test("a cell of a grey face is passed over only where no pixel in it is warm", () => {
  const [widthPx, heightPx] = [30, 18];
  const rgb = new Uint8Array(widthPx * heightPx * 3).fill(60);
  // One warm pixel, at the right end, where a row's last cell is cut; its mean over 3 x 3 px is warm around it, too.
  rgb.set([255, 120, 20], 3 * (9 * widthPx + 29));
  const { passedOver, cellColumns } = rustFeatures({ widthPx, heightPx, rgb }, null, 8, true);
  const asked = Array.from(passedOver.keys()).filter((cell) => passedOver[cell] === 0);
  expect(asked).toEqual([2 * cellColumns + 7]);
});
