import { describe, expect, test } from "vitest";
import { marks } from "./raster.ts";
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
const columns = (found: Uint8Array) =>
  Array.from(found.subarray(0, side).keys()).filter((x) => found[x] === marks.rust);
const band = picture((x) => (x >= 8 && x < 12 ? 200 : 40));

describe("a rim cut back to where rust is half of the light", () => {
  test("a mark one pixel too wide on both sides comes back to the band's own pixels", () => {
    const found = marked(7, 13);
    const trimmed: number[] = [];
    trimRimsByLight(found, band, { isSteel: () => true, trim: (at) => trimmed.push(at) });
    expect(columns(found)).toEqual([8, 9, 10, 11]);
    expect(trimmed).toHaveLength(2 * side);
  });

  test.each([
    // sRGB of a mixed pixel at the left of rust at 200 (light 0.58) on steel at 40 (0.02)
    [165, [8, 9, 10, 11]], // 0.38: well above half way
    [125, [9, 10, 11]], // 0.20
  ])("a mixed pixel of %i: %j stay", (mixed, stay) => {
    const found = marked(8, 12);
    const mixedAt = picture((x) => (x === 8 ? mixed : x > 8 && x < 12 ? 200 : 40));
    trimRimsByLight(found, mixedAt, { isSteel: () => true, trim: () => {} });
    expect(columns(found)).toEqual(stay);
  });

  test("beside what is not surely steel nothing is trimmed", () => {
    const found = marked(7, 13);
    trimRimsByLight(found, band, { isSteel: () => false, trim: () => {} });
    expect(columns(found)).toEqual([7, 8, 9, 10, 11, 12]);
  });
});
