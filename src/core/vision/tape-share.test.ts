import { describe, expect, test } from "vitest";
import { type PaintDistance, paintDistance } from "./tape-bare.ts";
import type { CutLine } from "./tape-cuts.ts";
import { type TapeFrame, tapeFrame } from "./tape-frame.ts";
import { latticeRemoval, offNearestCut, rimPixels } from "./tape-measure.ts";
import { removedShares } from "./tape-share.ts";

const side = 100;
const pxPerMm = 10;
/** A plane of 10 by 10 mm with a margin of 2 mm: paint 60, bare metal 180, by a rule in mm. */
function frameOf(isBare: (x: number, y: number) => boolean): TapeFrame {
  const rgb = new Uint8Array(side * side * 3).fill(60);
  for (let at = 0; at < side * side; at++)
    if (isBare(((at % side) + 0.5) / pxPerMm - 2, (Math.floor(at / side) + 0.5) / pxPerMm - 2))
      rgb.fill(180, at * 3, at * 3 + 3);
  return {
    image: { widthPx: side, heightPx: side, rgb },
    extent: { leftMm: -2, topMm: -2, widthMm: 10, heightMm: 10 },
    pxPerMm,
  };
}
// Two cuts each way, 6 mm apart: one square.
const cuts: CutLine[] = [
  { from: [0, 0], to: [0, 6] },
  { from: [6, 0], to: [6, 6] },
  { from: [0, 0], to: [6, 0] },
  { from: [0, 6], to: [6, 6] },
];
const nothing = new Uint8Array(side * side);
const seen = (frame: TapeFrame): PaintDistance =>
  paintDistance(frame, rimPixels(frame, { lengthMm: 6, widthMm: 6 }, 1, nothing));
const read = (isBare: (x: number, y: number) => boolean) => {
  const [before, after] = [frameOf(() => false), frameOf(isBare)];
  return latticeRemoval(after, removedShares(after, { before: seen(before), after: seen(after) }, cuts), cuts);
};

describe("shares of what came off one square of 6 by 6 mm", () => {
  test.each([
    // what lies bare, its percent of 36 mm² by hand
    ["nothing", () => false, 0],
    ["a third, a side's whole band of 2 mm", (x: number) => x > 0 && x < 2, 33.3],
    ["a flake of 3 by 2 mm in the middle", (x: number, y: number) => x > 1.5 && x < 4.5 && y > 2 && y < 4, 16.7],
    ["all of it", (x: number, y: number) => x > 0 && x < 6 && y > 0 && y < 6, 100],
  ] as const)("%s", (_, isBare, percent) => expect(Math.abs(read(isBare).removedPercent - percent)).toBeLessThan(1.5));
});

test("distance to the nearest cut is square to it, mm", () => {
  const off = offNearestCut(
    frameOf(() => false),
    cuts,
  );
  const at = (x: number, y: number) => off[Math.floor((y + 2) * pxPerMm) * side + Math.floor((x + 2) * pxPerMm)];
  expect(at(1, 3)).toBeCloseTo(1.05, 2);
  expect(at(5.5, 3)).toBeCloseTo(0.45, 2);
});

test("a frame twice as fine shows the same colours at the same places", () => {
  const photo = frameOf((x) => x > 3).image;
  const extent = { leftMm: 2, topMm: 2, widthMm: 6, heightMm: 6 };
  const fine = tapeFrame(photo, [pxPerMm, 0, 0, 0, pxPerMm, 0, 0, 0, 1], extent, 20);
  expect(fine.image.widthPx).toBe(120);
  expect([fine.image.rgb[0], fine.image.rgb[119 * 3]]).toEqual([60, 180]);
});
