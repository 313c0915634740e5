import { describe, expect, test } from "vitest";
import { darkQuads } from "./dark-quads.ts";

/** White paper with black squares; the sizes leave pixels over beside the places of 4 x 4 px in which the means are taken. */
function paperWith(
  squares: readonly { left: number; top: number; sidePx: number }[],
  widthPx: number,
  heightPx: number,
) {
  const grey = new Uint8Array(widthPx * heightPx).fill(230);
  for (const { left, top, sidePx } of squares)
    for (let row = top; row < Math.min(heightPx, top + sidePx); row++)
      grey.fill(20, row * widthPx + left, row * widthPx + Math.min(widthPx, left + sidePx));
  return { widthPx, heightPx, grey };
}

describe("dark quads", () => {
  test.each([
    // left  top  where
    [40, 40, "on places of the means"],
    [41, 43, "across them"],
    [203 - 16, 60, "in the columns left over at the right"],
    [60, 158 - 16, "in the rows left over at the bottom"],
  ])("a square at %d, %d (%s) is found to the pixel", (left, top) => {
    const quads = darkQuads(paperWith([{ left, top, sidePx: 16 }], 203, 158));
    expect(quads.length).toBeGreaterThan(0);
    for (const quad of quads) {
      expect(Math.min(...quad.map(([x]) => x))).toBe(left);
      expect(Math.max(...quad.map(([x]) => x))).toBe(left + 16);
      expect(Math.min(...quad.map(([, y]) => y))).toBe(top);
      expect(Math.max(...quad.map(([, y]) => y))).toBe(top + 16);
    }
  });

  test("paper alone has none, nor has a square smaller than a marker", () => {
    expect(darkQuads(paperWith([], 203, 158))).toEqual([]);
    expect(darkQuads(paperWith([{ left: 50, top: 50, sidePx: 9 }], 203, 158))).toEqual([]);
  });
});
