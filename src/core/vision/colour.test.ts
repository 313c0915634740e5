import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deltaE2000 } from "./colour-difference.ts";
import { labFromSrgb } from "./colour-lab.ts";

const lab = (lStar: number, aStar: number, bStar: number) => ({ lStar, aStar, bStar });

describe("CIELAB of a pixel", () => {
  test.each([
    // red green blue   L*        a*        b*         (IEC 61966-2-1, CIE 15)
    [255, 0, 0, 53.2408, 80.0925, 67.2032],
    [0, 0, 255, 32.297, 79.1875, -107.8602],
    [120, 60, 35, 32.5847, 23.9665, 26.9302],
    [8, 3, 2, 1.0943, 1.1685, 0.8392], // on the straight part near black
    [255, 255, 255, 100, 0, 0],
    [0, 0, 0, 0, 0, 0],
  ])("%d %d %d is L* %d, a* %d, b* %d", (red, green, blue, lStar, aStar, bStar) => {
    const found = labFromSrgb({ red, green, blue });
    expect(Math.abs(found.lStar - lStar)).toBeLessThan(0.02);
    expect(Math.abs(found.aStar - aStar)).toBeLessThan(0.02);
    expect(Math.abs(found.bStar - bStar)).toBeLessThan(0.02);
  });

  test("a grey has no colour, and a brighter one more lightness", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 254 }), (grey) => {
        const found = labFromSrgb({ red: grey, green: grey, blue: grey });
        expect(found.chroma).toBeLessThan(1e-9);
        expect(labFromSrgb({ red: grey + 1, green: grey + 1, blue: grey + 1 }).lStar).toBeGreaterThan(found.lStar);
      }),
    );
  });

  test("refuses a channel of 256 by name", () => {
    expect(() => labFromSrgb({ red: 0, green: 256, blue: 0 })).toThrow(/^green is 256; expected a channel/);
  });
});

describe("CIEDE2000", () => {
  test.each([
    // Sharma, Wu and Dalal 2005: all 34 pairs of their table, from memory, to the four digits printed there
    [lab(50, 2.6772, -79.7751), lab(50, 0, -82.7485), 2.0425],
    [lab(50, 3.1571, -77.2803), lab(50, 0, -82.7485), 2.8615],
    [lab(50, 2.8361, -74.02), lab(50, 0, -82.7485), 3.4412],
    [lab(50, -1.3802, -84.2814), lab(50, 0, -82.7485), 1],
    [lab(50, -1.1848, -84.8006), lab(50, 0, -82.7485), 1],
    [lab(50, -0.9009, -85.5211), lab(50, 0, -82.7485), 1],
    [lab(50, 0, 0), lab(50, -1, 2), 2.3669], // a grey has no hue
    [lab(50, -1, 2), lab(50, 0, 0), 2.3669],
    [lab(50, 2.49, -0.001), lab(50, -2.49, 0.0009), 7.1792], // hues almost opposite
    [lab(50, 2.49, -0.001), lab(50, -2.49, 0.001), 7.1792],
    [lab(50, 2.49, -0.001), lab(50, -2.49, 0.0011), 7.2195], // the other way round the circle
    [lab(50, 2.49, -0.001), lab(50, -2.49, 0.0012), 7.2195],
    [lab(50, -0.001, 2.49), lab(50, 0.0009, -2.49), 4.8045],
    [lab(50, -0.001, 2.49), lab(50, 0.001, -2.49), 4.8045],
    [lab(50, -0.001, 2.49), lab(50, 0.0011, -2.49), 4.7461],
    [lab(50, 2.5, 0), lab(50, 0, -2.5), 4.3065],
    [lab(50, 2.5, 0), lab(73, 25, -18), 27.1492],
    [lab(50, 2.5, 0), lab(61, -5, 29), 22.8977],
    [lab(50, 2.5, 0), lab(56, -27, -3), 31.903],
    [lab(50, 2.5, 0), lab(58, 24, 15), 19.4535],
    [lab(50, 2.5, 0), lab(50, 3.1736, 0.5854), 1],
    [lab(50, 2.5, 0), lab(50, 3.2972, 0), 1],
    [lab(50, 2.5, 0), lab(50, 1.8634, 0.5757), 1],
    [lab(50, 2.5, 0), lab(50, 3.2592, 0.335), 1],
    [lab(60.2574, -34.0099, 36.2677), lab(60.4626, -34.1751, 39.4387), 1.2644],
    [lab(63.0109, -31.0961, -5.8663), lab(62.8187, -29.7946, -4.0864), 1.263],
    [lab(61.2901, 3.7196, -5.3901), lab(61.4292, 2.248, -4.962), 1.8731],
    [lab(35.0831, -44.1164, 3.7933), lab(35.0232, -40.0716, 1.5901), 1.8645],
    [lab(22.7233, 20.0904, -46.694), lab(23.0331, 14.973, -42.5619), 2.0373],
    [lab(36.4612, 47.858, 18.3852), lab(36.2715, 50.5065, 21.2231), 1.4146],
    [lab(90.8027, -2.0831, 1.441), lab(91.1528, -1.6435, 0.0447), 1.4441],
    [lab(90.9257, -0.5406, -0.9208), lab(88.6381, -0.8985, -0.7239), 1.5381],
    [lab(6.7747, -0.2908, -2.4247), lab(5.8714, -0.0985, -2.2286), 0.6377],
    [lab(2.0776, 0.0795, -1.135), lab(0.9033, -0.0636, -0.5514), 0.9082],
  ])("%j and %j differ by %d", (first, second, difference) => {
    expect(Math.abs(deltaE2000({ first, second }) - difference)).toBeLessThan(0.6e-4);
  });

  test("is 0 for one colour and the same both ways", () => {
    const coordinate = fc.double({ min: -90, max: 90, noNaN: true });
    const colour = fc.record({
      lStar: fc.double({ min: 0, max: 100, noNaN: true }),
      aStar: coordinate,
      bStar: coordinate,
    });
    fc.assert(
      fc.property(colour, colour, (first, second) => {
        expect(deltaE2000({ first, second: first })).toBe(0);
        expect(deltaE2000({ first, second })).toBeCloseTo(deltaE2000({ first: second, second: first }), 9);
      }),
    );
  });

  test("refuses a missing coordinate by name", () => {
    expect(() => deltaE2000({ first: lab(Number.NaN, 0, 0), second: lab(50, 0, 0) })).toThrow(/^first.lStar is NaN/);
  });
});
