import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import { labImage } from "./lab-image.ts";
import { marks, type RgbImage } from "./raster.ts";
import { colourMarks } from "./rust-by-colour.ts";
import { rustByModel } from "./rust-by-model.ts";
import { rustModel1 } from "./rust-model-1.ts";
import { rustUncertainty } from "./rust-uncertainty.ts";

const side = 160;
/** Bright steel with mottled rust on all but the first columns. */
function face(rust: readonly number[], steelColumns: number, steel: readonly number[]): RgbImage {
  const random = seededRandom(7);
  const rgb = new Uint8Array(side * side * 3);
  for (let at = 0; at < side * side; at++) {
    const [x, y] = [at % side, Math.floor(at / side)];
    const mottle = 5 * Math.sin(Math.floor(x / 5) * 12.9 + Math.floor(y / 5) * 78.2);
    rgb.set(
      (x < steelColumns ? steel : rust.map((value) => value + mottle)).map((value) => value + random.below(7) - 3),
      at * 3,
    );
  }
  return { widthPx: side, heightPx: side, rgb };
}
const everything = new Uint8Array(side * side).fill(255);
const steel = [150, 152, 156];
const modelAlone = { ...rustModel1, heedsColourRule: false };
const percent = (image: RgbImage, model = rustModel1) =>
  (100 * rustByModel(image, null, 8, model).marks.filter((mark) => mark === marks.rust).length) / side ** 2;

describe("where much of the face is rust", () => {
  test.each([
    // 70 % of bright steel under    sRGB
    ["brown, nearly black", [60, 46, 40]],
    ["light bloom", [95, 70, 58]],
  ])("%s: what the model overlooks beside so much rust is taken from the colour rule", (_, rust) => {
    const image = face(rust, 48, steel);
    expect(percent(image, modelAlone)).toBeLessThan(40);
    expect(Math.abs(percent(image) - 70)).toBeLessThan(2);
  });

  test("a clean face in warm light has no grey in it: the colour rule, to which all of it is rust, marks nothing more", () => {
    const image = face([], side, [98, 80, 62]);
    const all = colourMarks(image, labImage(image), 8).filter((mark) => mark === marks.rust).length;
    expect(all / side ** 2).toBeGreaterThan(0.9);
    expect(percent(image)).toBe(percent(image, modelAlone));
  });

  test("a face without grey, rust to the model in part and all of it to the rule: read as before, but the interval reaches as far", () => {
    const image = face([120, 70, 40], 120, [98, 80, 62]);
    // A model less ready to call rust, and sure of its limit, so that only the rule can carry the end.
    const strict = { rustFromLogOdds: 4, limitReach: { up: 1.5, down: 0.05 } };
    const [alone, heeded] = [modelAlone, rustModel1].map((model) => {
      const own = { ...model, ...strict };
      return rustUncertainty(rustByModel(image, null, 8, own), everything, own);
    });
    expect(heeded!.percent).toBe(alone!.percent);
    expect(alone!.upper).toBeLessThan(40);
    expect(heeded!.upper).toBeGreaterThan(90);
  });
});
