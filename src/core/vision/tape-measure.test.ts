import { describe, expect, test } from "vitest";
import type { CutLine } from "./tape-cuts.ts";
import type { TapeFrame } from "./tape-frame.ts";
import { removedPixels, rimPixels, sureFlakes, xRemoval } from "./tape-measure.ts";

const pxPerMm = 8;
const [widthMm, heightMm, marginMm] = [40, 20, 4];
const [widthPx, heightPx] = [(widthMm + 2 * marginMm) * pxPerMm, (heightMm + 2 * marginMm) * pxPerMm];
const frame: TapeFrame = {
  image: { widthPx, heightPx, rgb: new Uint8Array(0) },
  extent: { leftMm: -marginMm, topMm: -marginMm, widthMm: widthPx / pxPerMm, heightMm: heightPx / pxPerMm },
  pxPerMm,
};
const cuts: [CutLine, CutLine] = [
  { from: [0, 0], to: [widthMm, heightMm] },
  { from: [widthMm, 0], to: [0, heightMm] },
];
const mask = (isIn: (x: number, y: number) => boolean) =>
  Uint8Array.from({ length: widthPx * heightPx }, (_, at) =>
    isIn(((at % widthPx) + 0.5) / pxPerMm - marginMm, (Math.floor(at / widthPx) + 0.5) / pxPerMm - marginMm) ? 1 : 0,
  );
const length = Math.hypot(widthMm, heightMm);
/** Distance to the nearer of both cuts, mm. */
const offCuts = (x: number, y: number) =>
  Math.min(Math.abs(heightMm * x - widthMm * y), Math.abs(heightMm * (widthMm - x) - widthMm * y)) / length;
const inside = (x: number, y: number, byMm = 0) => x > -byMm && y > -byMm && x < widthMm + byMm && y < heightMm + byMm;

describe("an X whose ends stand 40 by 20 mm apart", () => {
  test.each([
    // what came off; of the band (%), jag (mm), farther within, just outside (%)
    // The band: 2 x 44.72 x 6.4 less the rhombus of 51.2 where it crosses itself, 521.2 mm². At each end 10.24 and 2.56 mm² of it lie
    // outside the four ends: 1 - 4 x 12.8 / 521.2 = 90.2 %.
    ["nothing", () => false, { band: 0, jagMm: 0, far: 0, outside: 0 }],
    [
      "everything within 1 mm of the cuts: 1 / 3.2",
      (x: number, y: number) => inside(x, y) && offCuts(x, y) < 1,
      { band: 31, jagMm: 1, far: 0, outside: 0 },
    ],
    ["all within the ends", (x: number, y: number) => inside(x, y), { band: 90.2, jagMm: null, far: 100, outside: 0 }],
    [
      "all of it and 1 mm beyond",
      (x: number, y: number) => inside(x, y, 1.2),
      { band: 98, jagMm: null, far: 100, outside: 100 },
    ],
    [
      "the left half",
      (x: number, y: number) => inside(x, y) && x < widthMm / 2,
      { band: 45.1, jagMm: null, far: 50, outside: 0 },
    ],
  ])("%s", (_, isIn, expected) => {
    const read = xRemoval(frame, mask(isIn), cuts);
    expect(Math.abs(read.removedPercent - expected.band)).toBeLessThan(2);
    if (expected.jagMm !== null) expect(Math.abs(read.jagWidthMm - expected.jagMm)).toBeLessThan(0.15);
    expect(Math.abs(read.farPercent - expected.far)).toBeLessThan(1);
    expect(Math.abs(read.outsidePercent - expected.outside)).toBeLessThan(1);
  });

  test("arms go clockwise from the top left", () => {
    const { flagPercents } = xRemoval(
      frame,
      mask((x, y) => x < 12 && y < 6 && offCuts(x, y) < 1),
      cuts,
    );
    expect(flagPercents[0]).toBeGreaterThan(10);
    expect(flagPercents.slice(1)).toEqual([0, 0, 0]);
  });
});

describe("flakes", () => {
  // Two, of 2 by 2 mm each.
  const [left, right] = [
    (x: number, y: number) => x > 4 && x < 6 && y > 9 && y < 11,
    (x: number, y: number) => x > 30 && x < 32 && y > 9 && y < 11,
  ];
  const count = (one: Uint8Array) => one.reduce((sum, value) => sum + value, 0);
  const nothing = mask(() => false);

  test("one of which no place is surely bare is dropped, the other kept whole", () => {
    const both = mask((x, y) => left(x, y) || right(x, y));
    expect(
      sureFlakes(
        both,
        mask((x, y) => x > 5 && x < 5.2 && y > 10 && y < 10.2),
        frame,
      ),
    ).toEqual(mask(left));
    expect(count(sureFlakes(both, nothing, frame))).toBe(0);
  });

  test("what was bare before came off at another time; a cut's strip takes the state of its side", () => {
    const wasBare = mask(left);
    expect(count(removedPixels(frame, { before: wasBare, after: wasBare }, nothing))).toBe(0);
    const strip = mask((x) => x > 30.5 && x < 31);
    const holed = mask((x, y) => right(x, y) && !(x > 30.5 && x < 31));
    expect(removedPixels(frame, { before: nothing, after: holed }, strip)).toEqual(mask(right));
  });

  test("a speck below 0.06 mm² is noise", () => {
    const speck = mask((x, y) => x > 5 && x < 5.3 && y > 10 && y < 10.12);
    expect(count(speck)).toBe(2);
    expect(count(removedPixels(frame, { before: nothing, after: speck }, nothing))).toBe(0);
  });
});

test("the rim is what lies farther than asked from the region, the strips left out", () => {
  const strips = mask((x) => x > 20 && x < 21);
  const rim = rimPixels(frame, { lengthMm: widthMm, widthMm: heightMm }, 2, strips);
  expect(rim).toEqual(mask((x, y) => !inside(x, y, 2) && !(x > 20 && x < 21)));
});
