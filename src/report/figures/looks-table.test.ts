import { describe, expect, test } from "vitest";
import {
  type Look,
  nothingObserved,
  type Observed,
  type PercentLook,
  type TrialRecord,
} from "../../core/trial/trial-record.ts";
import { doubtLines, readByText } from "./doubt-text.ts";
import { looksTable, type MeasuredPicture } from "./looks-table.ts";

function look(coupon: string, date: string, part: Partial<PercentLook> = {}): Observed<Look> {
  const body: PercentLook = {
    kind: "look",
    coupon,
    face: "front",
    when: { date },
    rustedPercent: 1,
    edgePercent: null,
    how: "photo",
    blind: true,
    measurement: null,
    ...part,
  };
  return { id: `${coupon} ${date} ${body.face}`, recordedAt: "2026-03-01T10:00:00Z", by: "J", corrects: null, body };
}

const place = (coupon: string, treatment: string, spare = false) => ({
  coupon,
  treatment,
  block: null,
  rack: null,
  spare,
});

function record(part: Partial<TrialRecord>): TrialRecord {
  return {
    id: "shed",
    name: "shed",
    plan: {
      question: "",
      questions: [],
      treatments: [
        { name: "oil", role: "control", route: null },
        { name: "wax", role: "finish", route: null },
      ],
      couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 2 },
      edgeBandMm: 5,
      rustThresholdPercent: 0.01,
      lookDays: [7],
      places: [place("10", "oil"), place("2", "wax"), place("3", "oil"), place("4", "wax", true)],
      allocation: { how: "drawn", seed: 1 },
      invented: false,
    },
    ...nothingObserved,
    ...part,
  };
}

const picture = (id: string, part: Partial<MeasuredPicture> = {}): MeasuredPicture => ({
  ...{ id, overlay: "hash", method: "model 1", byHand: null },
  ...{ rustPercentInterval: { low: 0.8, high: 1.7, confidencePercent: 90 }, gradeSpan: { best: 6, worst: 5 } },
  ...part,
});

describe("how sure a percentage is, and what read it", () => {
  const looks = ["1", "2", "3"].map((day) => look("2", `2026-03-0${day}`, { measurement: day }));
  const byHand = { by: "J", why: "label", from: "2" };
  const shop = "model 1; adapted: my finish, version 3";
  const table = looksTable(record({ looks: [...looks, look("2", "2026-03-04", { how: "eye" })] }), [
    picture("1"),
    picture("2", { byHand }),
    picture("3", { method: shop, rustPercentInterval: undefined, gradeSpan: undefined }),
  ]);

  test("stands with each photograph that was read; not where a hand corrected, an eye judged, or nobody knows", () => {
    const cells = table.rows.find((row) => row.coupon === "2")!.cells.flat();
    expect(cells.map((cell) => cell.doubt)).toEqual([{ low: 0.8, high: 1.7, best: 6, worst: 5 }, null, null, null]);
    expect(doubtLines(cells[0]!.doubt!)).toEqual(["0.8–1.7", "D610 6–5"]);
    expect(table.confidencePercent).toBe(90);
  });

  test("every model that read is named, with how many and how many a hand corrected", () =>
    expect(table.readBy.map(readByText)).toEqual([
      "2 looks were read by: model 1; 1 of them corrected by hand.",
      "1 look was read by: model 1; adapted: my finish, version 3.",
    ]));
});

describe("the grid of looks", () => {
  test("without a look: every coupon that is no spare, no column", () => {
    const table = looksTable(record({}), []);
    expect(table.columns).toEqual([]);
    expect(table.rows.map((row) => row.coupon).sort()).toEqual(["10", "2", "3"]);
  });

  test("blind: no treatment anywhere", () =>
    expect(looksTable(record({}), []).rows.every((row) => row.treatment === null)).toBe(true));

  test("opened: by treatment in the plan's order, then by number", () => {
    const rows = looksTable(record({ unblinded: true }), []).rows;
    expect(rows.map((row) => [row.coupon, row.treatment])).toEqual([
      ["3", "oil"],
      ["10", "oil"],
      ["2", "wax"],
    ]);
  });

  test("a spare that took another's place is shown", () =>
    expect(looksTable(record({ looks: [look("4", "2026-03-01")] }), []).rows.map((row) => row.coupon)).toContain("4"));

  test("dates across in the calendar's order, both faces in one cell, front first", () => {
    const looks = [
      look("2", "2026-03-10"),
      look("2", "2026-03-02", { face: "back" }),
      look("2", "2026-03-02", { measurement: "m" }),
    ];
    const table = looksTable(record({ looks }), [picture("m")]);
    expect(table.columns.map((column) => column.key)).toEqual(["2026-03-02", "2026-03-10"]);
    const cells = table.rows.find((row) => row.coupon === "2")!.cells;
    expect(cells[0]!.map((cell) => [cell.look.body.face, cell.picture])).toEqual([
      ["front", "hash"],
      ["back", null],
    ]);
  });

  test("day numbers by size, not by letter", () => {
    const looks = [14, 7, 100].map((day) => look("2", "", { when: { day } }));
    expect(looksTable(record({ looks }), []).columns.map((column) => column.label)).toEqual([
      "day 7",
      "day 14",
      "day 100",
    ]);
  });
});
