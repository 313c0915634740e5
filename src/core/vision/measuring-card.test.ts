import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { markerBits, readMarkerBits } from "./marker-codes.ts";
import { cardForCoupon, cardNames, cardOfMarker, measuringCard } from "./measuring-card.ts";

const pages = { A4: [210, 297], Letter: [215.9, 279.4] } as const;

describe("the measuring cards", () => {
  test.each(cardNames)("%s: fits both pages with a printer's margin of 8 mm", (name) => {
    const { widthMm, heightMm } = measuringCard(name);
    for (const [width, height] of Object.values(pages)) {
      expect(widthMm + 16).toBeLessThanOrEqual(width);
      expect(heightMm + 16).toBeLessThanOrEqual(height);
    }
  });

  test.each(cardNames)("%s: markers, patches and window keep white between them", (name) => {
    const { markers, markerMm, patches, window } = measuringCard(name);
    const places = [
      ...markers.map(({ xMm, yMm }) => ({ xMm, yMm, widthMm: markerMm, heightMm: markerMm })),
      { ...window, xMm: window.xMm, yMm: window.yMm },
      { xMm: patches[0]!.xMm, yMm: patches[0]!.yMm, widthMm: patches.length * 8, heightMm: 8 },
    ];
    for (const [at, one] of places.entries())
      for (const other of places.slice(at + 1)) {
        const apartX = Math.max(one.xMm - other.xMm - other.widthMm, other.xMm - one.xMm - one.widthMm);
        const apartY = Math.max(one.yMm - other.yMm - other.heightMm, other.yMm - one.yMm - one.heightMm);
        expect(Math.max(apartX, apartY)).toBeGreaterThanOrEqual(3);
      }
  });

  test.each([
    [{ lengthMm: 50, widthMm: 25 }, "small"],
    [{ lengthMm: 25, widthMm: 50 }, "small"],
    [{ lengthMm: 100, widthMm: 60 }, "medium"],
    [{ lengthMm: 150, widthMm: 100 }, "large"],
    [{ lengthMm: 200, widthMm: 100 }, null],
  ])("a coupon of %j goes on the %s card", (size, name) => expect(cardForCoupon(size)).toBe(name));

  test("a marker tells its card; no card has marker 12", () => {
    for (const name of cardNames)
      for (const { id } of measuringCard(name).markers) expect(cardOfMarker(id)?.name).toBe(name);
    expect(cardOfMarker(12)).toBeNull();
  });
});

describe("marker codes", () => {
  const quarter = (bits: Uint8Array) => bits.map((_, at) => bits[(5 - (at % 6)) * 6 + Math.floor(at / 6)]!);

  test("any five wrong modules in any turn are put right", () => {
    const flips = fc.uniqueArray(fc.integer({ min: 0, max: 35 }), { maxLength: 5 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 11 }), fc.integer({ min: 0, max: 3 }), flips, (id, quarterTurns, wrong) => {
        let bits = markerBits[id]!.slice();
        for (let turn = 0; turn < quarterTurns; turn++) bits = quarter(bits);
        for (const at of wrong) bits[at]! ^= 1;
        expect(readMarkerBits(bits)).toEqual({ id, quarterTurns, wrongBits: wrong.length });
      }),
    );
  });

  test("all black and all white are no marker", () => {
    expect(readMarkerBits(new Uint8Array(36))).toBeNull();
    expect(readMarkerBits(new Uint8Array(36).fill(1))).toBeNull();
  });
});
