import { describe, expect, test } from "vitest";
import { labImage } from "./lab-image.ts";
import { overlayPicture } from "./overlay.ts";
import { marks, type RgbImage } from "./raster.ts";
import { colourMarks } from "./rust-by-colour.ts";

const side = 60;
function painted(colourAt: (x: number, y: number) => readonly number[]): RgbImage {
  const rgb = new Uint8Array(side * side * 3);
  for (let at = 0; at < side * side; at++) rgb.set(colourAt(at % side, Math.floor(at / side)), at * 3);
  return { widthPx: side, heightPx: side, rgb };
}
const marksOf = (image: RgbImage, pxPerMm: number | null) => colourMarks(image, labImage(image), pxPerMm);
const percent = (image: RgbImage, pxPerMm: number | null) =>
  (100 * marksOf(image, pxPerMm).filter((mark) => mark === marks.rust).length) / side ** 2;

describe("CIELAB of a picture", () => {
  test.each([
    // sRGB                L*       a*      b*      source                                     status
    [[255, 255, 255], 100, 0, 0, "white of IEC 61966-2-1", "published"],
    [[0, 0, 0], 0, 0, 0, "black", "published"],
    [[255, 0, 0], 53.24, 80.09, 67.2, "red primary, D65", "computed"],
    [[0, 0, 255], 32.3, 79.19, -107.86, "blue primary, D65", "computed"],
  ])("%j is %d, %d, %d (%s, %s)", (colour, lightness, a, b) => {
    const lab = labImage({ widthPx: 1, heightPx: 1, rgb: Uint8Array.from(colour) });
    expect(Math.abs(lab.lightness[0]! - lightness)).toBeLessThan(0.1);
    expect(Math.abs(lab.a[0]! - a)).toBeLessThan(0.1);
    expect(Math.abs(lab.b[0]! - b)).toBeLessThan(0.1);
  });
});

describe("rust by colour", () => {
  test.each([
    // surface                     sRGB, as the colour table of surfaces has it
    ["manganese phosphate, dry", [74, 74, 75]],
    ["phosphate, warmest of its range (a* 1, b* 3)", [84, 79, 75]],
    ["phosphate, oiled", [46, 46, 47]],
    ["phosphate, oiled, warm (a* 1, b* 3)", [51, 46, 42]],
    ["zinc phosphate (b* 4)", [133, 130, 123]],
    ["machined steel (b* 4)", [190, 185, 177]],
    ["black hole", [4, 3, 3]],
    ["blown highlight", [255, 255, 255]],
    ["yellow varnish", [225, 200, 140]],
  ])("%s reads none", (_, colour) => {
    for (const pxPerMm of [5, 20, null])
      expect(
        percent(
          painted(() => colour),
          pxPerMm,
        ),
      ).toBe(0);
  });

  test.each([
    ["fresh orange rust", [176, 98, 42]],
    ["red-brown rust", [130, 68, 44]],
    ["dark, old rust", [70, 52, 42]],
    ["oil-soaked rust", [58, 43, 36]],
  ])("%s reads all", (_, colour) => {
    for (const pxPerMm of [5, 20, null])
      expect(
        percent(
          painted(() => colour),
          pxPerMm,
        ),
      ).toBe(100);
  });

  test.each([
    ["dark phosphate", [60, 60, 61]],
    ["bright steel", [170, 172, 175]],
  ])("a square of orange rust on %s keeps its size within a pixel all round", (_, steel) => {
    const square = (x: number, y: number) => x >= 15 && x < 45 && y >= 15 && y < 45;
    for (const pxPerMm of [5, 20]) {
      const found = percent(
        painted((x, y) => (square(x, y) ? [160, 85, 42] : steel)),
        pxPerMm,
      );
      expect(found).toBeGreaterThan((100 * 28 ** 2) / side ** 2);
      expect(found).toBeLessThan((100 * 32 ** 2) / side ** 2);
    }
  });

  test.each([0, -1, Number.NaN])("refuses a scale of %d px per mm", (pxPerMm) => {
    expect(() =>
      marksOf(
        painted(() => [60, 60, 60]),
        pxPerMm,
      ),
    ).toThrow(/^pxPerMm is/);
  });
});

test("the overlay outlines rust outside of it and leaves the found rust itself in view", () => {
  const image = painted((x) => (x < 30 ? [160, 85, 42] : [60, 60, 61]));
  const mask = { widthPx: side, heightPx: side, marks: marksOf(image, 5) };
  const drawn = overlayPicture(image, mask, { left: 0, top: 0, right: side, bottom: side });
  const middle = 30 * side;
  const edge = mask.marks.subarray(middle, middle + side).lastIndexOf(marks.rust);
  expect(drawn.rgb.slice((middle + edge) * 3, (middle + edge) * 3 + 3)).toEqual(Uint8Array.from([160, 85, 42]));
  expect(drawn.rgb.slice((middle + edge + 1) * 3, (middle + edge + 1) * 3 + 3)).toEqual(Uint8Array.from([0, 230, 255]));
});
