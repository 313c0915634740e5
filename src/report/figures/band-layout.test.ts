import { describe, expect, test } from "vitest";
import type { CouponPoint } from "../../core/trial/finding.ts";
import { arrowPx, bandLayout, centredWithin, nameLines } from "./band-layout.ts";
import { percentScale, timeScale } from "./response-scale.ts";

const point = (coupon: string, datum: CouponPoint["datum"], deviation: string | null = null): CouponPoint => ({
  coupon,
  treatment: "wax",
  block: null,
  datum,
  deviation,
});

describe("coupons in time", () => {
  const scale = timeScale(100);
  test("between two looks: a line, its number after its end", () => {
    const [mark] = bandLayout([point("7", { left: 10, right: 20 })], scale, 200).marks;
    expect(mark).toMatchObject({ from: 20, to: 40, open: false, labelAt: 44 });
  });
  test("not yet at the last look: an arrow past the end of the axis", () => {
    const [mark] = bandLayout([point("7", { left: 100, right: null })], scale, 200).marks;
    expect(mark).toMatchObject({ from: 200, to: 200 + arrowPx, open: true });
  });
  test("known exactly: both ends alike", () => {
    const [mark] = bandLayout([point("7", { left: 30, right: 30 })], scale, 200).marks;
    expect(mark).toMatchObject({ from: 60, to: 60, open: false });
  });
  test("six alike take six lanes; one that fits beside them takes none of its own", () => {
    const alike = ["1", "2", "3", "4", "5", "6"].map((coupon) => point(coupon, { left: 50, right: 60 }));
    expect(bandLayout([...alike, point("9", { left: 0, right: 10 })], scale, 200).lanes).toBe(6);
  });
});

describe("coupons by value", () => {
  test("none rusted: a tower at zero, in closer lanes when it is high", () => {
    const clean = Array.from({ length: 12 }, (_, at) => point(String(at + 1), { value: 0 }));
    const band = bandLayout(clean, percentScale(0), 300);
    expect(band.lanes).toBe(12);
    expect(band.marks.every((mark) => mark.from === 0)).toBe(true);
    expect(band.laneHeight).toBeLessThan(bandLayout(clean.slice(0, 3), percentScale(0), 300).laneHeight);
  });
  test("an empty band keeps one lane's height", () =>
    expect(bandLayout([], percentScale(0), 300)).toMatchObject({ lanes: 0, height: 17 }));
  test("a deviation is starred", () =>
    expect(bandLayout([point("7", { value: 1 }, "dropped")], percentScale(1), 300).marks[0]?.label).toBe("7*"));
});

describe("a treatment's name in lines", () => {
  test.each([
    ["wax", 12, 2, ["wax"]],
    ["manganese phosphate + oil", 14, 2, ["manganese", "phosphate +…"]],
    ["manganese phosphate + oil", 19, 2, ["manganese phosphate", "+ oil"]],
    ["unbreakablename", 8, 2, ["unbreaka", "blename"]],
    ["", 8, 2, []],
  ])("%s in %d letters and %d lines", (name, letters, lines, rows) =>
    expect(nameLines(name, letters, lines)).toEqual(rows),
  );
});

describe("a label over its mark", () => {
  test.each([
    ["has room", 300, 100, 600, 300],
    ["would leave on the left", 20, 100, 600, 50],
    ["would leave on the right", 590, 100, 600, 550],
    ["is wider than the drawing", 20, 900, 600, 300],
  ])("%s", (_, middle, label, width, at) => expect(centredWithin(middle, label, width)).toBe(at));
});
