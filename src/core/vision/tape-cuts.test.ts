import { expect, test } from "vitest";
import { mapped } from "./homography.ts";
import { type CutPattern, placedCuts, plannedCuts } from "./tape-cuts.ts";
import type { TapeFrame } from "./tape-frame.ts";

const pattern: CutPattern = { form: "cross-cut", cuts: 11, spacingMm: 1 };
const [side, pxPerMm, marginMm] = [180, 10, 4];

/** Dark paint, bright cuts that run 3.5 mm beyond a lattice of 10 mm laid `off` mm from its place; inside it what came off is bare. */
function frameOf([offX, offY]: readonly [number, number], isBare: (x: number, y: number) => boolean): TapeFrame {
  const rgb = new Uint8Array(side * side * 3).fill(60);
  const onCut = (along: number, across: number) =>
    along > -3.5 && along < 13.5 && across > -0.1 && across < 10.1 && Math.abs(across - Math.round(across)) < 0.08;
  for (let at = 0; at < side * side; at++) {
    const x = ((at % side) + 0.5) / pxPerMm - marginMm - offX;
    const y = (Math.floor(at / side) + 0.5) / pxPerMm - marginMm - offY;
    const inside = x > 0 && x < 10 && y > 0 && y < 10;
    const byte = inside && isBare(x, y) ? 180 : onCut(x, y) || onCut(y, x) ? 200 : 60;
    rgb.fill(byte, at * 3, at * 3 + 3);
  }
  return {
    image: { widthPx: side, heightPx: side, rgb },
    extent: { leftMm: -marginMm, topMm: -marginMm, widthMm: 18, heightMm: 18 },
    pxPerMm,
  };
}

test.each([
  ["nothing came off", [0, 0], () => false],
  ["a finger was off by less than half a spacing", [0.3, -0.4], () => false],
  ["nearly all came off", [0.35, 0.3], (x: number, y: number) => x < 8.4 || y > 2.7],
] as const)("cuts 1 mm apart are found where they lie: %s", { timeout: 30_000 }, (_, off, isBare) => {
  const map = placedCuts(frameOf(off, isBare), plannedCuts(pattern), pattern);
  // A slip is a whole spacing, 1 mm; where little is left of the cuts they are found less nearly.
  const nearMm = isBare(1, 1) ? 0.25 : 0.12;
  for (const [x, y] of [
    [0, 0],
    [10, 10],
  ] as const) {
    const [foundX, foundY] = mapped(map, [x, y]);
    expect(Math.abs(foundX - x - off[0])).toBeLessThan(nearMm);
    expect(Math.abs(foundY - y - off[1])).toBeLessThan(nearMm);
  }
});
