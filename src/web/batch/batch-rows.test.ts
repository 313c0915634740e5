import { describe, expect, test } from "vitest";
import type { Measurement, Photo } from "../../api/photo.ts";
import {
  type BatchRow,
  isAwaited,
  isNeededElsewhere,
  isToDo,
  isToKeep,
  isToMeasure,
  isToWrite,
  lacksFile,
  lookDateOf,
  rowFault,
  rowsOf,
  standingOf,
  waitsToBeSent,
  withFiles,
} from "./batch-rows.ts";

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
      changed(rows[0]!, { state: { is: "measured", measurement }, isWritten: true }),
    ];
    expect(states.map(isToDo)).toEqual([true, false, false, false, false]);
    expect(states.map(isToWrite)).toEqual([false, false, true, false, false]);
    expect(standingOf(states)).toEqual({ all: 5, done: 3, refused: 1, failed: 1, left: 0 });
  });

  test("a refused one may be taken again: the new one of its coupon is no second", () => {
    const refused = changed(rows[1]!, { state: { is: "refused", why: "" } });
    const all = [rows[0]!, refused, rows[3]!];
    expect(all.map((row) => rowFault(row, all))).toEqual([null, null, null]);
  });
});

describe("a page opened anew", () => {
  const photo = { hash: "a" } as unknown as Photo;
  const opened = [
    changed(rows[0]!, { file: null, hash: "a", photo, isAsked: true, job: "j" }),
    changed(rows[1]!, { file: null, hash: "b", photo }),
    changed(rows[2]!, { file: null }),
    changed(rows[3]!, { file: null, hash: "d", isAsked: true }),
  ];

  test("what was asked for goes on, in the shop or once it is sent; only what neither has is to be chosen again", () => {
    expect(opened.map(isToMeasure)).toEqual([true, false, false, false]);
    expect(opened.map(isAwaited)).toEqual([true, false, false, true]);
    expect(opened.map(isToDo)).toEqual([false, true, false, false]);
    expect(opened.map(waitsToBeSent)).toEqual([false, false, false, true]);
    expect(opened.map(lacksFile)).toEqual([false, false, true, false]);
  });

  test("only a new file goes into the queue; left out, the same content stays there for another row", () => {
    const again = withFiles(opened, files, []);
    expect(again.map(isToKeep)).toEqual([false, false, true, false]);
    expect(isNeededElsewhere({ ...opened[3]!, id: "other" }, opened)).toBe(true);
    expect(isNeededElsewhere(opened[3]!, opened)).toBe(false);
  });

  test("the same files chosen again are no new rows, and each row keeps its look", () => {
    const again = withFiles(opened, [...files, new File([], "4.jpg")], ["1", "2", "3", "4"]);
    expect(again.map(({ name }) => name)).toEqual(["1.jpg", "2.jpg", "IMG_0009.jpg", "coupon 2.jpg", "4.jpg"]);
    expect(again.slice(0, 4).map(({ look }) => look)).toEqual(opened.map(({ look }) => look));
    expect(again[2]!.file).toBe(files[2]);
    expect(again.map(lacksFile)).toEqual([false, false, false, false, false]);
  });

  test("a file of the same name and another content is another photograph", () =>
    expect(withFiles(opened, [new File(["x"], "1.jpg")], []).length).toBe(5));
});

describe("the date of a look", () => {
  const taken = (takenAt: string | null) => ({ takenAt }) as Photo;
  test.each<[string | null, Photo | null, string, string]>([
    // by hand     photograph                          date          why
    [null, taken("2026-04-16T09:30:00+02:00"), "2026-04-16", "its own, as its camera's clock read"],
    [null, taken("2026-04-16T23:59:59"), "2026-04-16", "a day is the wall clock's"],
    ["2026-04-15", taken("2026-04-16T09:30:00"), "2026-04-15", "as entered"],
    [null, taken(null), "2026-05-01", "for those without one"],
    [null, null, "2026-05-01", "not sent yet"],
    [null, taken("2031-01-01T00:00:00"), "2026-05-01", "a camera's clock that runs ahead"],
    [null, taken("2026-05-02T00:00:00"), "2026-05-02", "today"],
  ])("entered %s, photograph %j: %s (%s)", (date, photo, expected) =>
    expect(lookDateOf({ date, photo }, "2026-05-01", "2026-05-02")).toBe(expected),
  );
});
