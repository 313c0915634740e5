import { describe, expect, test } from "vitest";
import { barePixels, paintDistance } from "./tape-bare.ts";
import type { TapeFrame } from "./tape-frame.ts";

const [side, pxPerMm] = [120, 10];
type Colour = readonly [number, number, number];
const [paint, steel]: Colour[] = [
  [122, 58, 44],
  [158, 160, 164],
];

/** 12 by 12 mm of paint, a square of bare steel from 4 to 8 mm each way, in light that grows to the right. */
function frameOf(bareFrom: number, bareTo: number, uneven: number): TapeFrame {
  const rgb = new Uint8Array(side * side * 3);
  for (let at = 0; at < side * side; at++) {
    const [x, y] = [at % side, Math.floor(at / side)];
    const bare = Math.min(x, y) >= bareFrom && Math.max(x, y) < bareTo;
    for (let channel = 0; channel < 3; channel++)
      rgb[at * 3 + channel] = Math.round((bare ? steel : paint)![channel]! * (1 + uneven * (x / side - 0.5)));
  }
  return {
    image: { widthPx: side, heightPx: side, rgb },
    extent: { leftMm: 0, topMm: 0, widthMm: 12, heightMm: 12 },
    pxPerMm,
  };
}
// The outer 2 mm are known to be paint.
const rim = Uint8Array.from({ length: side * side }, (_, at) => {
  const [x, y] = [at % side, Math.floor(at / side)];
  return Math.min(x, y, side - 1 - x, side - 1 - y) < 20 ? 1 : 0;
});
const nothing = new Uint8Array(side * side);
const countBare = (frame: TapeFrame, share = 0.5, strips = nothing) =>
  barePixels(frame, paintDistance(frame, rim), { share, strips }).reduce((sum, one) => sum + one, 0);

describe("where paint is missing", () => {
  test.each([
    // light from side to side, bare square px
    ["even light", 0],
    ["light 40 % brighter on the right", 0.4],
  ])("a square of 40 by 40 px in %s", (_, uneven) =>
    expect(Math.abs(countBare(frameOf(40, 80, uneven)) - 1600)).toBeLessThan(60),
  );

  test.each([0, 0.4])("paint alone is nowhere bare, light changing by %d", (uneven) =>
    expect(countBare(frameOf(0, 0, uneven))).toBe(0),
  );

  test("what lies in the cuts alone is no measure of what is bare", () => {
    const everywhere = nothing.map(() => 1);
    expect(countBare(frameOf(40, 80, 0), 0.5, everywhere)).toBe(0);
  });

  test("the farther from paint is asked for, the less is bare", () => {
    const soft = frameOf(40, 80, 0);
    expect(countBare(soft, 0.9)).toBeLessThan(countBare(soft, 0.3));
  });
});

test("distance of steel from red oxide in CIELAB, of paint from itself", () => {
  const { distance, onPaint, offPaint } = paintDistance(frameOf(40, 80, 0), rim);
  // Red oxide: L* 32.9, a* 26.0, b* 20.6; steel 65.5, 0.0, -2.2: 32.6, 26.0 and 22.8 apart make 47.5.
  expect(distance[60 * side + 60]).toBeGreaterThan(45);
  expect(distance[60 * side + 60]).toBeLessThan(50);
  expect(onPaint).toBeLessThan(0.5);
  // Linear light of bytes 158 and 122: 0.342 and 0.195.
  expect(offPaint[0][60 * side + 60]).toBeCloseTo(0.342 - 0.195, 2);
});
