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
    { cornersPx: before.cornersPx, pattern, printScale: 1 },
  );

test("an even picture from above may be read", () => expect(told((byte) => byte)).toBeNull());
test("a dark one asks for light", () => expect(told((byte) => byte / 6)).toMatch(/too dark.*more light/));
test("a lamp that mirrors in a stripe of it is named", () =>
  expect(told((byte, at) => (Math.floor(at / 3) % 420 > 190 && Math.floor(at / 3) % 420 < 230 ? 255 : byte))).toMatch(
    /A lamp mirrors in/,
  ));
