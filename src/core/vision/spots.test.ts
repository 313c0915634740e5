import { describe, expect, test } from "vitest";
import { rustAroundContacts } from "./contact-points.ts";
import { withHidden, withinOutline } from "./polygons.ts";
import { marks, type RustMask } from "./raster.ts";
import { rustSpots, spotCounts, spotDiameterMm } from "./spots.ts";

/** A mask drawn by hand: # rust, x left out. One character is one px; the coupon is as many half millimetres. */
function drawn(...rows: string[]): { mask: RustMask; size: { lengthMm: number; widthMm: number } } {
  const widthPx = rows[0]!.length;
  const byte = { "#": marks.rust, x: marks.leftOut } as Record<string, number>;
  const mask = {
    widthPx,
    heightPx: rows.length,
    marks: Uint8Array.from(rows.join(""), (sign) => byte[sign] ?? marks.notRust),
  };
  return { mask, size: { lengthMm: widthPx / 2, widthMm: rows.length / 2 } };
}
const whole = (mask: RustMask) => ({ left: 0, top: 0, right: mask.widthPx, bottom: mask.heightPx });

describe("rust spots", () => {
  // Half a millimetre per px: the block of four is 1 mm², its middle at column 2, row 2; the slanting three touch at corners.
  const { mask, size } = drawn(".........#", ".##.....#.", ".##....#..", "..........", ".....##...");

  test("touching corners join, two pixels are noise, the largest comes first", () =>
    expect(rustSpots(mask, whole(mask), size)).toEqual([
      { xMm: 1, yMm: 1, areaMm2: 1 },
      { xMm: 4.25, yMm: 0.75, areaMm2: 0.75 },
    ]));

  test("what lies on the edge band is no spot of the face", () =>
    expect(rustSpots(mask, { left: 0, top: 0, right: 7, bottom: 5 }, size)).toHaveLength(1));

  test("no rust, no spots", () => {
    const clean = drawn("....", "....");
    expect(rustSpots(clean.mask, whole(clean.mask), clean.size)).toEqual([]);
  });

  test("sizes are counted by diameter, a spot on a limit in the class above it", () => {
    expect(spotDiameterMm({ areaMm2: Math.PI })).toBeCloseTo(2, 12);
    const spots = [0.3, 0.5, 1.5, 2, 9].map((diameter) => ({
      xMm: 0,
      yMm: 0,
      areaMm2: (Math.PI * diameter * diameter) / 4,
    }));
    expect(spotCounts(spots)).toEqual([1, 1, 1, 1, 1]);
  });
});

describe("rust round a contact point", () => {
  const { mask, size } = drawn("####....", "####....", "xx......", "xx......");
  test.each([
    // Within 0.8 mm of the corner lie the px whose centres are at (0.25, 0.25), (0.75, 0.25), (0.25, 0.75): all rust.
    [{ xMm: 0, yMm: 0, radiusMm: 0.8 }, 100],
    [{ xMm: 4, yMm: 2, radiusMm: 0.8 }, 0],
    // Only left-out places in reach.
    [{ xMm: 0, yMm: 2, radiusMm: 0.8 }, null],
  ])("%j: %d %%", (contact, percent) => expect(rustAroundContacts(mask, size, [contact])).toEqual([percent]));

  test("refuses a point beside the coupon", () =>
    expect(() => rustAroundContacts(mask, size, [{ xMm: 9, yMm: 1, radiusMm: 1 }])).toThrow(/^contacts\[0\] is/));
});

describe("polygons", () => {
  const { mask, size } = drawn("####", "####", "####", "####");
  const square = [
    [0.5, 0.5],
    [1.5, 0.5],
    [1.5, 1.5],
    [0.5, 1.5],
  ] as const;

  test("what is hidden is left out, and only that", () => {
    const hidden = withHidden(mask, size, [square]).marks;
    expect(hidden.filter((mark) => mark === marks.leftOut)).toHaveLength(4);
    expect([hidden[5], hidden[6], hidden[9], hidden[10]]).toEqual([128, 128, 128, 128]);
    expect(mask.marks).not.toContain(marks.leftOut);
  });

  test("an odd shape keeps what lies inside its outline, whichever way round it is drawn", () => {
    const inside = withinOutline(mask, size, square).marks;
    expect(inside.filter((mark) => mark === marks.rust)).toHaveLength(4);
    expect(withinOutline(mask, size, [...square].reverse()).marks).toEqual(inside);
  });

  test("hiding what is outside an outline and hiding its inside leave nothing", () => {
    const none = withHidden(withinOutline(mask, size, square), size, [square]).marks;
    expect(new Set(none)).toEqual(new Set([marks.leftOut]));
  });

  test("refuses two corners", () =>
    expect(() => withHidden(mask, size, [square.slice(2)])).toThrow(/^hiddenMm\[0\] is "2 corners"; expected three/));
});
