import { describe, expect, test } from "vitest";
import { kept, lentFloats } from "./pixel-loops.ts";
import { marks, type RgbImage } from "./raster.ts";
import { trimRimsByLight } from "./trimmed-rims.ts";

const side = 20;
const picture = (byteAt: (x: number) => number) => {
  const rgb = new Uint8Array(side * side * 3);
  for (let at = 0; at < side * side; at++) rgb.fill(byteAt(at % side), 3 * at, 3 * at + 3);
  return { widthPx: side, heightPx: side, rgb };
};
const marked = (from: number, past: number) =>
  Uint8Array.from({ length: side * side }, (_, at) =>
    at % side >= from && at % side < past ? marks.rust : marks.notRust,
  );
const [sure, spared] = [5, 0.5];
/** Log odds after trimming: rust where marked, and what `steel` says elsewhere. */
const trimmed = (found: Uint8Array, image: RgbImage, steel = -5) =>
  kept(() => {
    const logOdds = lentFloats(side * side);
    for (const [at, mark] of found.entries()) logOdds[at] = mark === marks.rust ? sure : steel;
    trimRimsByLight(logOdds, found, image, { steelBelow: -2, spared });
    return logOdds;
  });
const columns = (logOdds: Float32Array) =>
  Array.from(logOdds.subarray(0, side).keys()).filter((x) => logOdds[x] === sure);
const band = picture((x) => (x >= 8 && x < 12 ? 200 : 40));

describe("a rim cut back to where rust is half of the light", () => {
  test("a mark one pixel too wide on both sides comes back to the band's own pixels", () => {
    const logOdds = trimmed(marked(7, 13), band);
    expect(columns(logOdds)).toEqual([8, 9, 10, 11]);
    expect(logOdds.filter((odds) => odds === spared)).toHaveLength(2 * side);
  });

  test.each([
    // sRGB of a mixed pixel at the left of rust at 200 (light 0.58) on steel at 40 (0.02)
    [165, [8, 9, 10, 11]], // 0.38: well above half way
    [125, [9, 10, 11]], // 0.20
  ])("a mixed pixel of %i: %j stay", (mixed, stay) => {
    const mixedAt = picture((x) => (x === 8 ? mixed : x > 8 && x < 12 ? 200 : 40));
    expect(columns(trimmed(marked(8, 12), mixedAt))).toEqual(stay);
  });

  test("beside what is not surely steel nothing is trimmed", () => {
    expect(columns(trimmed(marked(7, 13), band, -1))).toEqual([7, 8, 9, 10, 11, 12]);
  });
});
