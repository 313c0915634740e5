import { describe, expect, test } from "vitest";
import { balancedByPatch, type PatchLight, patchLight } from "./patch-light.ts";
import type { RgbImage } from "./raster.ts";

/** 500 x 300 px: all of one colour, but what `paint` says of a column. */
function picture(
  colour: readonly number[],
  paint: (column: number) => readonly number[] | null = () => null,
): RgbImage {
  const rgb = new Uint8Array(500 * 300 * 3);
  for (let at = 0; at < 150_000; at++) rgb.set(paint(at % 500) ?? colour, 3 * at);
  return { widthPx: 500, heightPx: 300, rgb };
}
const taken = (photo: RgbImage) => {
  const light = patchLight(photo, [200, 150]);
  if ("unfit" in light) throw new Error(light.unfit);
  return light;
};

describe("light by a white or grey place", () => {
  test.each([
    // paper as taken, what it becomes: grey of the same luminance
    [[200, 200, 200]],
    [[220, 205, 175]],
    [[150, 160, 175]],
    [[110, 100, 85]],
  ])("a place that reads %j becomes grey, as bright as before", (paper) => {
    const photo = picture(paper);
    const [red, green, blue] = balancedByPatch(photo, taken(photo)).rgb;
    expect(Math.max(red!, green!, blue!) - Math.min(red!, green!, blue!)).toBeLessThanOrEqual(1);
    expect(green!).toBeGreaterThanOrEqual(Math.min(...paper));
    expect(green!).toBeLessThanOrEqual(Math.max(...paper));
  });

  test("in neutral light no byte changes", () => {
    const photo = picture([180, 180, 180], (column) => (column > 300 ? [120, 70, 40] : null));
    expect(taken(photo).castChroma).toBeLessThan(0.1);
    expect(balancedByPatch(photo, taken(photo)).rgb.every((byte, at) => byte === photo.rgb[at])).toBe(true);
  });

  test("a few specks on the paper change nothing", () => {
    const specked = picture([220, 205, 175], (column) => (column % 12 === 0 ? [60, 50, 40] : null));
    expect(taken(specked).gains).toEqual(taken(picture([220, 205, 175])).gains);
  });

  test("at the picture's very corner the part that lies in it is read", () => {
    expect(patchLight(picture([200, 190, 170]), [0, 0])).toEqual(patchLight(picture([200, 190, 170]), [250, 150]));
  });

  test.each<[string, RgbImage, RegExp]>([
    ["burnt out in one channel", picture([255, 240, 210]), /burnt out/],
    ["in the dark", picture([55, 50, 45]), /too dark/],
    ["rust", picture([136, 70, 38]), /coloured in this picture, by \d\d C\*ab.*daylight/],
    ["orange paper", picture([230, 150, 60]), /coloured/],
    [
      "an edge between paper and bench",
      picture([210, 210, 210], (column) => (column > 200 ? [90, 80, 70] : null)),
      /not of one colour/,
    ],
  ])("%s is refused in words", (_, photo, words) => {
    expect((patchLight(photo, [200, 150]) as { unfit: string }).unfit).toMatch(words);
  });

  test("outside the picture is refused by name", () => {
    expect(() => patchLight(picture([200, 200, 200]), [501, 10])).toThrow(
      /^neutralPx is "501, 10"; expected a place in/,
    );
  });

  test("brighter paper in the same light gives the same gains", () => {
    const gains = (paper: readonly number[]) => (patchLight(picture(paper), [200, 150]) as PatchLight).gains;
    // Half of the light in every channel: 0.855, 0.730, 0.509 and 0.429, 0.362, 0.250, by sRGB's own formula.
    for (const [at, gain] of gains([238, 222, 189]).entries()) expect(gain).toBeCloseTo(gains([175, 162, 137])[at]!, 1);
  });
});
