import { expect, test } from "vitest";
import type { Corners } from "../inspect/corner-geometry.ts";
import { cornersAsked, withCorners } from "./reading-corners.ts";
import type { LaterReading } from "./waiting-item.ts";

const square = (sidePx: number): Corners => [
  [0, 0],
  [sidePx, 0],
  [sidePx, sidePx],
  [0, sidePx],
];
const sizeMm = { lengthMm: 100, widthMm: 60 };
const colour: LaterReading = {
  of: "finish colour",
  request: { photo: "a", cornersPx: null, sizeMm, edgeBandMm: 5, thicknessMm: 3 },
  body: { kind: "finish colour", coupon: "3", when: { date: "2026-03-01" }, state: "oiled", note: "" },
};
const tape: LaterReading = {
  of: "tape test",
  request: {
    before: { photo: "b", cornersPx: square(10) },
    after: { photo: "c", cornersPx: square(20) },
    pattern: { form: "cross-cut", cuts: 6, spacingMm: 2 },
  },
  body: { kind: "tape test", coupon: "3", when: null, tapeClass: "3B", blind: true, note: "" },
  counts: "photo",
  parted: "not seen",
};

test("a colour's corners may be unknown, a tape test's never are", () => {
  expect(cornersAsked(colour)).toEqual([{ photo: "a", which: "face", corners: null, sizeMm }]);
  expect(cornersAsked(tape).map(({ which, corners }) => [which, corners])).toEqual([
    ["before", square(10)],
    ["after", square(20)],
  ]);
  // Six cuts 2 mm apart.
  expect(cornersAsked(tape)[0]?.sizeMm).toEqual({ lengthMm: 10, widthMm: 10 });
});

test("what is set goes to its own photograph; the rest stays as it was asked", () => {
  expect(withCorners(colour, [square(5)])).toEqual({ ...colour, request: { ...colour.request, cornersPx: square(5) } });
  expect(cornersAsked(withCorners(tape, [null, square(7)])).map(({ corners }) => corners)).toEqual([
    square(10),
    square(7),
  ]);
});
