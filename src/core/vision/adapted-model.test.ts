import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import { adaptedModel } from "./adapted-model.ts";
import type { Stroke } from "./brush.ts";
import { marks, type RgbImage } from "./raster.ts";
import { rustByModel } from "./rust-by-model.ts";
import { rustModel1 } from "./rust-model-1.ts";

const sizeMm = { lengthMm: 20, widthMm: 10 };
/** 200 x 100 px: the left half in one colour, the right in another, with a camera's grain. */
function halves(left: readonly number[], right: readonly number[]): RgbImage {
  const random = seededRandom(6);
  const rgb = new Uint8Array(200 * 100 * 3);
  for (let at = 0; at < 200 * 100; at++)
    rgb.set(
      (at % 200 < 100 ? left : right).map((value) => value + random.below(9) - 4),
      at * 3,
    );
  return { widthPx: 200, heightPx: 100, rgb };
}
/** Two round spots of 2 mm at 5 and 15 mm along the middle, drawn out by a blur over half a mm. */
function withSpots(image: RgbImage, colour: readonly number[]): RgbImage {
  const rgb = image.rgb.slice();
  for (const [at, steel] of image.rgb.entries()) {
    const pixel = Math.floor(at / 3);
    const [x, y] = [(pixel % 200) / 10, Math.floor(pixel / 200) / 10];
    const away = Math.min(Math.hypot(x - 5, y - 5), Math.hypot(x - 15, y - 5));
    const share = Math.min(1, Math.max(0, (1.25 - away) / 0.5));
    rgb[at] = steel + share * (colour[at % 3]! - steel);
  }
  return { ...image, rgb };
}
const stroke = (paint: Stroke["paint"], x: number): Stroke => ({
  paint,
  widthMm: 2,
  pointsMm: [
    [x, 2],
    [x, 8],
  ],
});
const inHalf = (image: RgbImage, model: typeof rustModel1, half: "left" | "right") =>
  rustByModel(image, null, 10, model).marks.filter(
    (mark, at) => mark === marks.rust && at % 200 < 100 === (half === "left"),
  ).length /
  (100 * 100);

describe("a model fitted by strokes", () => {
  const steel = [78, 80, 84];
  // Brown so faint that the shipped model leaves it; a shop that knows it for rust says so.
  const faint = [92, 84, 78];
  const image = halves(steel, faint);
  const strokes = [stroke("not rust", 3), stroke("not rust", 7), stroke("rust", 13), stroke("rust", 17)];

  test("calls rust what the strokes call rust, also on another picture of that light, and leaves the steel", () => {
    const fitted = adaptedModel(rustModel1, [{ image, sizeMm, strokes }], "fitted to shed light");
    expect(fitted.name).toBe("fitted to shed light");
    const other = halves(
      steel.map((value) => value + 2),
      faint.map((value) => value + 2),
    );
    expect(inHalf(other, fitted, "right")).toBeGreaterThan(Math.max(0.8, inHalf(other, rustModel1, "right")));
    expect(inHalf(other, fitted, "left")).toBeLessThan(0.05);
  });

  test("strokes that only confirm change the percentage little", () => {
    const plain = halves(steel, [160, 85, 42]);
    const fitted = adaptedModel(rustModel1, [{ image: plain, sizeMm, strokes }], "confirmed");
    for (const half of ["left", "right"] as const)
      expect(Math.abs(inHalf(plain, fitted, half) - inHalf(plain, rustModel1, half))).toBeLessThan(0.03);
  });

  // The rim of a spot is half rust: what a dab teaches beyond the spot would be read round every spot.
  test.each([1, 2, 3])("a dab of %d mm on a spot of 2 mm changes the percentage little", (widthMm) => {
    const spotted = withSpots(halves(steel, steel), [160, 85, 42]);
    const dabs: Stroke[] = [
      { paint: "rust", widthMm, pointsMm: [[5, 5]] },
      { paint: "not rust", widthMm, pointsMm: [[10, 5]] },
    ];
    const percent = (model: typeof rustModel1) =>
      50 * (inHalf(spotted, model, "left") + inHalf(spotted, model, "right"));
    const fitted = adaptedModel(rustModel1, [{ image: spotted, sizeMm, strokes: dabs }], "dabbed");
    expect(percent(rustModel1)).toBeGreaterThan(2.5);
    expect(Math.abs(percent(fitted) / percent(rustModel1) - 1)).toBeLessThan(0.06);
  });

  test("a long stroke teaches no more than a short one at the same place", () => {
    const long = adaptedModel(rustModel1, [{ image, sizeMm, strokes }], "long");
    const short = strokes.map((one) => ({ ...one, pointsMm: [[one.pointsMm[0]![0], 5]] as const }));
    const dab = adaptedModel(rustModel1, [{ image, sizeMm, strokes: short }], "dab");
    expect(Math.abs(long.last[0]! - dab.last[0]!)).toBeLessThan(0.5);
  });

  test.each([
    ["none at all", []],
    ["only rust", [stroke("rust", 15)]],
    ["only left out and not rust", [stroke("left out", 15), stroke("not rust", 5)]],
  ])("refuses %s", (_, wrong) =>
    expect(() => adaptedModel(rustModel1, [{ image, sizeMm, strokes: wrong }], "x")).toThrow(
      /^photos is "no stroke on/,
    ),
  );
});
