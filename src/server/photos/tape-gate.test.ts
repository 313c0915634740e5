import { expect, test } from "vitest";
import { renderTape } from "../../../tests/rendered-tape.ts";
import { tapeGate } from "./tape-gate.ts";

const pattern = { form: "cross-cut", cuts: 6, spacingMm: 2 } as const;
const { before } = renderTape({
  ...{ seed: 5, pattern, primer: "grey", substrate: "bare steel", loss: { percent: 0 }, tiltDeg: 8, uneven: 0.1 },
  widthPx: 420,
});
const told = (change: (byte: number, at: number) => number) =>
  tapeGate(
    { ...before.photo, rgb: before.photo.rgb.map(change) },
    { cornersPx: before.cornersPx, pattern, card: null },
  );

test("an even picture from above may be read", () => expect(told((byte) => byte)).toBeNull());
test("a dark one asks for light", () => expect(told((byte) => byte / 6)).toMatch(/too dark.*more light/));
test("a lamp that mirrors in a stripe of it is named", () =>
  expect(told((byte, at) => (Math.floor(at / 3) % 420 > 190 && Math.floor(at / 3) % 420 < 230 ? 255 : byte))).toMatch(
    /A lamp mirrors in \d+ % of the cut\./,
  ));
test("one from the side is told how far, and how far it may be", () => {
  const { photo, cornersPx } = renderTape({
    ...{ seed: 5, pattern, primer: "grey", substrate: "bare steel", loss: { percent: 0 }, uneven: 0 },
    ...{ tiltDeg: 48, widthPx: 640 },
  }).before;
  const degrees =
    /from the side: (\d+)° from straight above, at most 36°\. Hold it more above, its back level with the coupon/.exec(
      tapeGate(photo, { cornersPx, pattern, card: null }) ?? "",
    )?.[1];
  expect(Number(degrees)).toBeGreaterThan(40);
  expect(Number(degrees)).toBeLessThan(56);
});
