import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { faceRectangle, rustedShares } from "./assessed-face.ts";
import { withStrokes } from "./brush.ts";
import { marks, type RustMask } from "./raster.ts";

const size = { lengthMm: 100, widthMm: 50 };
/** One pixel per mm: counted on squared paper. */
const clean = (): RustMask => ({ widthPx: 100, heightPx: 50, marks: new Uint8Array(5000) });

describe("face and edge band", () => {
  test("100 x 50 mm with a band of 5 mm: 3600 mm² of face (worked example of the edge rule)", () => {
    const face = faceRectangle(clean(), size, 5);
    expect(face).toEqual({ left: 5, top: 5, right: 95, bottom: 45 });
    expect(rustedShares(clean(), face, size, 5)).toEqual({ rustedPercent: 0, edgePercent: 0, assessedAreaMm2: 3600 });
  });

  test("without a band there is no edge percentage, and all is face", () => {
    const shares = rustedShares(clean(), faceRectangle(clean(), size, 0), size, 0);
    expect(shares).toEqual({ rustedPercent: 0, edgePercent: null, assessedAreaMm2: 5000 });
  });

  test("rust on the edge does not count on the face, and the other way round", () => {
    const mask = clean();
    mask.marks[0] = marks.rust; // in the band: 1 of 1400
    mask.marks[5 * 100 + 5] = marks.rust; // first pixel of the face: 1 of 3600
    const shares = rustedShares(mask, faceRectangle(mask, size, 5), size, 5);
    expect(shares.rustedPercent).toBeCloseTo(100 / 3600, 12);
    expect(shares.edgePercent).toBeCloseTo(100 / 1400, 12);
  });

  test("all rusted is 100 % of both", () => {
    const mask = clean();
    mask.marks.fill(marks.rust);
    expect(rustedShares(mask, faceRectangle(mask, size, 5), size, 5)).toMatchObject({
      rustedPercent: 100,
      edgePercent: 100,
    });
  });

  test.each([25, 30, -1, Number.NaN])("refuses a band of %d mm on a 50 mm wide coupon", (band) => {
    expect(() => faceRectangle(clean(), size, band)).toThrow(/^edgeBandMm is/);
  });

  test("face and edge together hold every rusted pixel", () => {
    fc.assert(
      fc.property(fc.array(fc.nat(4999), { maxLength: 60 }), fc.integer({ min: 1, max: 24 }), (rusty, band) => {
        const mask = clean();
        for (const at of rusty) mask.marks[at] = marks.rust;
        const face = faceRectangle(mask, size, band);
        const facePx = (face.right - face.left) * (face.bottom - face.top);
        const { rustedPercent, edgePercent } = rustedShares(mask, face, size, band);
        const found = (rustedPercent * facePx + edgePercent! * (5000 - facePx)) / 100;
        expect(found).toBeCloseTo(new Set(rusty).size, 6);
      }),
    );
  });
});

describe("a hand's strokes", () => {
  const face = faceRectangle(clean(), size, 5);

  test("a line of 2 mm over 20 mm of face paints 20 x 2 mm and two half discs: 43.1 mm²", () => {
    const fine: RustMask = { widthPx: 1000, heightPx: 500, marks: new Uint8Array(500_000) };
    const line = {
      paint: "rust",
      widthMm: 2,
      pointsMm: [
        [40, 25],
        [60, 25],
      ],
    } as const;
    const painted = withStrokes(fine, size, [line]);
    const areaMm2 = painted.marks.filter((mark) => mark === marks.rust).length / 100;
    expect(areaMm2).toBeGreaterThan(42.8);
    expect(areaMm2).toBeLessThan(43.5);
    expect(fine.marks.every((mark) => mark === marks.notRust)).toBe(true);
  });

  test("a later stroke wins: rust, then not rust, leaves none", () => {
    const dab = { widthMm: 6, pointsMm: [[50, 25]] } as const;
    const painted = withStrokes(clean(), size, [
      { ...dab, paint: "rust" },
      { ...dab, paint: "not rust" },
    ]);
    expect(painted.marks).toEqual(clean().marks);
  });

  test("what is left out leaves both the rust and the area", () => {
    const rusty = clean();
    rusty.marks.fill(marks.rust);
    const half = {
      paint: "left out",
      widthMm: 50,
      pointsMm: [
        [0, 25],
        [25, 25],
      ],
    } as const;
    const shares = rustedShares(withStrokes(rusty, size, [half]), face, size, 5);
    expect(shares.rustedPercent).toBe(100);
    expect(shares.assessedAreaMm2).toBeLessThan(3600 - 45 * 25 * 0.7);
  });

  test("a face wholly left out has no percentage", () => {
    const all = { paint: "left out", widthMm: 300, pointsMm: [[50, 25]] } as const;
    expect(() => rustedShares(withStrokes(clean(), size, [all]), face, size, 5)).toThrow(/^mask is .*left out/);
  });

  test.each([
    [0, [[1, 1]], /strokes\[0\]\.widthMm/],
    [1, [], /strokes\[0\]\.pointsMm/],
    [1, [[1, Number.NaN]], /strokes\[0\]\.pointsMm/],
  ] as [number, [number, number][], RegExp][])(
    "refuses a stroke of width %d through %j",
    (widthMm, pointsMm, message) => {
      expect(() => withStrokes(clean(), size, [{ paint: "rust", widthMm, pointsMm }])).toThrow(message);
    },
  );
});
