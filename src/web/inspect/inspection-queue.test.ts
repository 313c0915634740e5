import { describe, expect, test } from "vitest";
import { type Look, nothingObserved, type Observed, type TrialRecord } from "../../core/trial/trial-record.ts";
import { inspectionQueue, nextCoupon } from "./inspection-queue.ts";

const written = { recordedAt: "2026-03-01T10:00:00Z", by: "J", corrects: null };
const look = (coupon: string, date: string, face: Look["face"] = "front"): Observed<Look> => ({
  ...written,
  id: `${coupon} ${date} ${face}`,
  body: {
    kind: "look",
    coupon,
    face,
    when: { date },
    rustedPercent: 0,
    edgePercent: null,
    how: "eye",
    blind: true,
    measurement: null,
  },
});

/** Coupons 1 to 4, put out on 1 March, looks planned after 7 and 14 days. */
function record(part: Partial<TrialRecord> = {}): TrialRecord {
  return {
    id: "shed",
    name: "shed",
    plan: {
      question: "",
      questions: [],
      treatments: [{ name: "oil", role: "control", route: null }],
      couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 2 },
      edgeBandMm: 5,
      rustThresholdPercent: 0.01,
      lookDays: [7, 14],
      places: ["1", "2", "3", "4"].map((coupon) => ({
        coupon,
        treatment: "oil",
        block: null,
        rack: null,
        spare: false,
      })),
      allocation: { how: "drawn", seed: 1 },
      invented: false,
    },
    ...nothingObserved,
    putOut: [
      {
        ...written,
        id: "out",
        body: { kind: "put out", site: "shed", date: "2026-03-01", coupons: ["1", "2", "3", "4"] },
      },
    ],
    ...part,
  };
}
const taken = (coupon: string, date: string): TrialRecord["takenDown"] => [
  { ...written, id: "down", body: { kind: "taken down", coupon, when: { date }, reason: "lost", note: "" } },
];

describe("which coupons a look still wants", () => {
  test.each([
    ["nothing is out yet", record({ putOut: [] }), "2026-03-08", []],
    ["before it was put out", record(), "2026-02-27", []],
    ["nothing was looked at", record(), "2026-03-08", ["1", "2", "3", "4"]],
    ["one was looked at today", record({ looks: [look("3", "2026-03-08")] }), "2026-03-08", ["1", "2", "4"]],
    ["one was looked at the day before", record({ looks: [look("3", "2026-03-07")] }), "2026-03-08", ["1", "2", "4"]],
    [
      "the earlier look does not stand for this one",
      record({ looks: [look("3", "2026-03-08")] }),
      "2026-03-15",
      ["1", "2", "3", "4"],
    ],
    ["one was lost before", record({ takenDown: taken("2", "2026-03-05") }), "2026-03-08", ["1", "3", "4"]],
    [
      "one is taken down that very day",
      record({ takenDown: taken("2", "2026-03-08") }),
      "2026-03-08",
      ["1", "2", "3", "4"],
    ],
    [
      "long after the last planned look, done then",
      record({ looks: [look("1", "2026-03-15")] }),
      "2026-04-20",
      ["2", "3", "4"],
    ],
  ])("%s", (_name, known, date, left) => expect(inspectionQueue(known, date).left.sort()).toEqual(left));

  test("without planned looks only the same date counts", () => {
    const plan = { ...record().plan, lookDays: [] };
    const known = record({ plan, looks: [look("1", "2026-03-07"), look("2", "2026-03-08")] });
    expect(inspectionQueue(known, "2026-03-08").left.sort()).toEqual(["1", "3", "4"]);
  });

  test("once a back was looked at, every coupon wants both faces", () => {
    const queue = inspectionQueue(record({ looks: [look("1", "2026-03-08", "back")] }), "2026-03-08");
    expect(queue.facesLeft.get("1")).toEqual(["front"]);
    expect(queue.facesLeft.get("2")).toEqual(["front", "back"]);
  });

  test("two days of one look keep one order", () =>
    expect(inspectionQueue(record(), "2026-03-07").order).toEqual(inspectionQueue(record(), "2026-03-08").order));
});

describe("the next coupon", () => {
  const queue = (left: string[]) => ({ lookDay: 7, order: ["3", "1", "4", "2"], left, facesLeft: new Map() });
  test.each([
    ["at the start, the first", queue(["3", "1", "4", "2"]), null, "3"],
    ["after one, the next that is wanted", queue(["3", "2"]), "1", "2"],
    ["after the last, those left behind", queue(["3"]), "2", "3"],
    ["none is left", queue([]), "2", null],
    ["only this one is left", queue(["2"]), "2", null],
  ])("%s", (_name, known, current, next) => expect(nextCoupon(known, current)).toBe(next));
});
