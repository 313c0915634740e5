import { describe, expect, test } from "vitest";
import type { Measurement } from "../../api/photo.ts";
import { type BatchRow, isToDo, isToWrite, rowFault, rowsOf, standingOf } from "./batch-rows.ts";

const files = ["1.jpg", "2.jpg", "IMG_0009.jpg", "coupon 2.jpg"].map((name) => new File([], name));
const rows = rowsOf(files, ["1", "2", "3"]);
const measurement = {} as Measurement;
const changed = (row: BatchRow, part: Partial<BatchRow>): BatchRow => ({ ...row, ...part });

describe("rows of many photographs", () => {
  test("each file with the coupon of its name, or none", () =>
    expect(rows.map(({ coupon }) => coupon)).toEqual(["1", "2", null, "2"]));

  test("a name that does not say, and a coupon chosen twice, are to be settled first", () =>
    expect(rows.map((row) => rowFault(row, rows))).toEqual([null, "twice", "no coupon", "twice"]));

  test("what is left out by hand stands in nobody's way", () => {
    const settled = [rows[0]!, rows[1]!, ...rows.slice(2).map((row) => changed(row, { isLeftOut: true }))];
    expect(settled.map((row) => rowFault(row, settled))).toEqual([null, null, null, null]);
    expect(settled.map(isToDo)).toEqual([true, true, false, false]);
  });

  test("what broke off is tried again, what was refused is not; only what is right is written down", () => {
    const states: BatchRow[] = [
      changed(rows[0]!, { state: { is: "failed", why: "" } }),
      changed(rows[1]!, { state: { is: "refused", why: "" } }),
      changed(rows[2]!, { state: { is: "measured", measurement } }),
      changed(rows[3]!, { state: { is: "measured", measurement }, isRight: false }),
      changed(rows[0]!, { state: { is: "written", measurement } }),
    ];
    expect(states.map(isToDo)).toEqual([true, false, false, false, false]);
    expect(states.map(isToWrite)).toEqual([false, false, true, false, false]);
    expect(standingOf(states)).toEqual({ all: 5, done: 3, refused: 1, failed: 1, left: 0 });
  });
});
