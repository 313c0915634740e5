import { describe, expect, test } from "vitest";
import { faceRectangle } from "./assessed-face.ts";
import { blotchPicture } from "./blotch-picture.ts";
import { labFromSrgb } from "./colour-lab.ts";
import { faceColour } from "./finish-colour.ts";
import { marks } from "./raster.ts";
import { onScaleOf } from "./same-colour-scale.ts";

const size = { lengthMm: 100, widthMm: 60 };
const [widthPx, heightPx] = [500, 300];
const grey = (level: number) => ({ red: level, green: level, blue: level });

/** A face of one grey with a grain of ±6, and a rectangle (mm) of another. */
function coupon(level: number, patch?: { level: number; xMm: number; yMm: number; sideMm: number }) {
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  for (let at = 0; at < widthPx * heightPx; at++) {
    const [x, y] = [((at % widthPx) + 0.5) / 5, (Math.floor(at / widthPx) + 0.5) / 5];
    const inPatch = patch && Math.abs(x - patch.xMm) < patch.sideMm / 2 && Math.abs(y - patch.yMm) < patch.sideMm / 2;
    rgb.fill((inPatch ? patch.level : level) + (((at * 7919) % 13) - 6), 3 * at, 3 * at + 3);
  }
  return { widthPx, heightPx, rgb };
}
const face = faceRectangle({ widthPx, heightPx }, size, 5);

describe("the colour of a face", () => {
  // CIELAB of a grey by IEC 61966-2-1 and CIE 15, as labFromSrgb is checked against its reference cases.
  test.each([40, 64, 119, 200])("a face of grey %i is as light as that grey, and even", (level) => {
    const colour = faceColour(coupon(level), face, size);
    expect(colour.lab.lStar).toBeCloseTo(labFromSrgb(grey(level)).lStar, 0);
    expect(Math.hypot(colour.lab.aStar, colour.lab.bStar)).toBeLessThan(0.1);
    expect(colour.lightnessSd).toBeLessThan(0.3);
    expect(colour.blotches).toEqual([]);
  });

  test.each([
    ["lighter", 84, true],
    ["darker", 36, false],
  ])("a %s patch of 10 mm is found at its place, with its size and side", (_, level, lighter) => {
    const { blotches } = faceColour(coupon(60, { level, xMm: 70, yMm: 20, sideMm: 10 }), face, size);
    expect(blotches).toHaveLength(1);
    const [blotch] = blotches;
    expect(blotch!.lighter).toBe(lighter);
    expect(Math.hypot(blotch!.xMm - 70, blotch!.yMm - 20)).toBeLessThan(1.5);
    expect(blotch!.areaMm2).toBeGreaterThan(70);
    expect(blotch!.areaMm2).toBeLessThan(150);
    expect(blotch!.deltaE).toBeGreaterThan(5);
  });

  test("a difference that only an instrument sees is no patch", () => {
    expect(faceColour(coupon(60, { level: 63, xMm: 50, yMm: 30, sideMm: 15 }), face, size).blotches).toEqual([]);
  });

  test("glints are no colour, and a face of glare is refused", () => {
    const some = coupon(60, { level: 249, xMm: 30, yMm: 30, sideMm: 12 });
    for (let at = 0; at < some.rgb.length; at++) if (some.rgb[at]! > 200) some.rgb[at] = 255;
    expect(faceColour(some, face, size).lab.lStar).toBeCloseTo(labFromSrgb(grey(60)).lStar, 0);
    const glare = { widthPx, heightPx, rgb: new Uint8Array(widthPx * heightPx * 3).fill(255) };
    expect(() => faceColour(glare, face, size)).toThrow(/glare/);
  });

  test("a hole that is left out is no patch, darkens nothing, and a face left out whole is refused", () => {
    const [image, leftOut] = [
      coupon(60, { level: 5, xMm: 50, yMm: 10, sideMm: 8 }),
      new Uint8Array(widthPx * heightPx),
    ];
    for (let y = 30; y < 70; y++) leftOut.fill(marks.leftOut, y * widthPx + 230, y * widthPx + 270);
    const seen = faceColour(image, face, size, { widthPx, heightPx, marks: leftOut });
    expect(faceColour(image, face, size).blotches).toHaveLength(1);
    expect(seen.blotches).toEqual([]);
    expect(seen.lab.lStar).toBeCloseTo(faceColour(coupon(60), face, size).lab.lStar, 1);
    const all = { widthPx, heightPx, marks: new Uint8Array(widthPx * heightPx).fill(marks.leftOut) };
    expect(() => faceColour(image, face, size, all)).toThrow(/hiddenMm.*some face left/);
  });

  test("the picture outlines the patch and nothing else", () => {
    const image = coupon(60, { level: 90, xMm: 50, yMm: 30, sideMm: 10 });
    const drawn = blotchPicture(image, face, faceColour(image, face, size));
    const changed = drawn.rgb.findIndex((byte, at) => byte !== image.rgb[at]);
    const [x, y] = [((changed / 3) % widthPx) / 5, Math.floor(changed / 3 / widthPx) / 5];
    expect(Math.abs(x - 50) <= 8 && Math.abs(y - 30) <= 8).toBe(true);
  });
});

describe("one scale for two photographs", () => {
  const patch = (lStar: number, bStar = 0) => ({ lStar, aStar: 0, bStar });
  const own = [patch(20), patch(40), patch(70), patch(93)];
  const other = [patch(26, 2), patch(44), patch(72), patch(93)];
  test.each([
    [20, 26, 2],
    [30, 35, 1],
    [40, 44, 0],
    [93, 93, 0],
    // Beyond the last patch as at it.
    [10, 16, 2],
    [97, 97, 0],
  ])("L* %f becomes %f", (lStar, expected, bStar) => {
    const moved = onScaleOf({ lab: patch(lStar), patches: own, other });
    expect(moved.lStar).toBeCloseTo(expected, 10);
    expect(moved.bStar).toBeCloseTo(bStar, 10);
  });
  test("there and back is the same colour between the patches", () => {
    const there = onScaleOf({ lab: patch(55, 3), patches: own, other });
    const back = onScaleOf({ lab: there, patches: other, other: own });
    expect(back.lStar).toBeCloseTo(55, 1);
  });
  test("cards with unequal patches are refused", () => {
    expect(() => onScaleOf({ lab: patch(30), patches: own, other: other.slice(1) })).toThrow(/as many as/);
  });
});
