import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import { marks, type RgbImage } from "./raster.ts";
import { rustByModel } from "./rust-by-model.ts";
import { rustFeatures } from "./rust-features.ts";
import { firstUnitsAt, logOddsOf, rustLogOdds } from "./rust-model.ts";
import { rustModel1 } from "./rust-model-1.ts";

const side = 64;
function painted(colourAt: (x: number, y: number) => readonly number[], size = side): RgbImage {
  const random = seededRandom(4);
  const rgb = new Uint8Array(size * size * 3);
  // A camera's grain: no real surface is one colour.
  for (let at = 0; at < size * size; at++)
    rgb.set(
      colourAt(at % size, Math.floor(at / size)).map((value) => value + random.below(7) - 3),
      at * 3,
    );
  return { widthPx: size, heightPx: size, rgb };
}
const percent = (image: RgbImage) =>
  (100 * rustByModel(image, null, 10, rustModel1).marks.filter((mark) => mark === marks.rust).length) /
  (image.widthPx * image.heightPx);

describe("rust by the learned model", () => {
  test("summing by cell and by picture gives what the plain network gives, pixel by pixel", () => {
    const random = seededRandom(8);
    const image = painted(() => [random.below(200) + 20, random.below(150) + 20, random.below(120) + 20], 37);
    const features = rustFeatures(image, null, null);
    const quick = logOddsOf(features, rustModel1);
    for (const [row, column] of [
      [0, 0],
      [4, 6],
      [20, 12],
      [36, 36],
    ] as const)
      expect(quick[row * 37 + column]).toBeCloseTo(firstUnitsAt(features, row, column, rustModel1).logOdds, 3);
  });

  test.each([
    // clean surface               sRGB
    ["manganese phosphate, dry", [74, 74, 75]],
    ["manganese phosphate, oiled", [46, 46, 47]],
    ["zinc phosphate", [133, 130, 123]],
    ["machined steel", [190, 185, 177]],
    ["black, nearly unlit", [10, 10, 10]],
    ["white label", [240, 240, 238]],
  ])("%s reads none", (_, colour) => expect(percent(painted(() => colour))).toBe(0));

  test.each([
    ["dark phosphate", [60, 60, 61]],
    ["bright steel", [170, 172, 175]],
  ])("a square of orange rust on %s keeps its size within a pixel all round", (_, steel) => {
    const square = (x: number, y: number) => x >= 20 && x < 44 && y >= 20 && y < 44;
    const found = percent(painted((x, y) => (square(x, y) ? [160, 85, 42] : steel)));
    expect(found).toBeGreaterThan((100 * 22 ** 2) / side ** 2);
    expect(found).toBeLessThan((100 * 26 ** 2) / side ** 2);
  });

  test.each([
    // rust                              sRGB           on
    ["orange on oiled phosphate", [160, 85, 42], [46, 46, 47]],
    ["light bloom on dry phosphate", [120, 84, 58], [60, 60, 61]],
    ["light bloom on bright steel", [120, 84, 58], [170, 172, 175]],
    ["dark brown on dry phosphate", [60, 40, 31], [60, 60, 61]],
    ["dark brown on oiled phosphate", [70, 42, 32], [46, 46, 47]],
    ["nearly black on dry phosphate", [44, 33, 29], [60, 60, 61]],
  ])("%s: most of it is found, and little beside it", (_, rust, steel) => {
    const square = (x: number, y: number) => x >= 20 && x < 44 && y >= 20 && y < 44;
    const found = percent(painted((x, y) => (square(x, y) ? rust : steel)));
    expect(found).toBeGreaterThan((100 * 21 ** 2) / side ** 2);
    expect(found).toBeLessThan((100 * 27 ** 2) / side ** 2);
  });

  test("what is left out of the count changes only against what the rest is compared", () => {
    const image = painted((x) => (x < 32 ? [70, 70, 70] : [150, 90, 50]));
    const counted = new Uint8Array(side * side).map((_, at) => (at % side < 32 ? 255 : 0));
    const found = rustByModel(image, counted, 10, rustModel1);
    expect(found.marks.length).toBe(side * side);
    expect(found.marks.filter((mark, at) => mark === marks.rust && at % side < 28).length).toBe(0);
  });

  test("a picture larger than the model saw comes back at its own size, with about the same share", () => {
    // Mottled by patches of 6 px, and dark: much evenly bright orange would be paint.
    const mottle = (x: number, y: number) => 24 * Math.sin(Math.floor(x / 6) * 12.9 + Math.floor(y / 6) * 78.2);
    const disc = (size: number) =>
      painted((x, y) => {
        if (Math.hypot(x - size / 2, y - size / 2) >= size / 5) return [60, 60, 61];
        const by = mottle(x, y);
        return [98 + by, 56 + by, 40 + 0.6 * by];
      }, size);
    const large = rustByModel(disc(1500), null, 10, rustModel1);
    expect(large.widthPx).toBe(1500);
    const share = large.marks.filter((mark) => mark === marks.rust).length / 1500 ** 2;
    expect(Math.abs(share - Math.PI / 25)).toBeLessThan(0.01);
  });

  test("refuses a model whose layers do not fit", () => {
    const image = painted(() => [60, 60, 60], 8);
    expect(() => rustLogOdds(image, null, null, { ...rustModel1, last: [0] })).toThrow(/^model is .*expected layers/);
  });
});
