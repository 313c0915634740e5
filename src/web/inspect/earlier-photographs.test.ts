import { describe, expect, test } from "vitest";
import { smallRecord } from "../../../tests/small-trial.ts";
import type { Measurement } from "../../api/photo.ts";
import type { ObservationBody } from "../../core/trial/trial-record.ts";
import { comparedWith, firstOfLook, firstPhotograph, leftOutBefore, photographsOf } from "./earlier-photographs.ts";

type P = [number, number];
const sizeMm = { lengthMm: 150, widthMm: 100 };
const hole: [number, number][] = [
  [70, 4],
  [80, 4],
  [75, 12],
];

/** Only what is read of a measurement here. */
function measured(id: string, { byCard = true, hiddenMm = undefined as (typeof hole)[] | undefined } = {}) {
  const request = { sizeMm, ...(hiddenMm ? { hiddenMm } : {}) };
  return { id, request, card: byCard ? { name: "large" } : null } as unknown as Measurement;
}

const look = (date: string, measurement: string | null, coupon = "1", face = "front"): ObservationBody => ({
  ...{ kind: "look", coupon, face, when: { date }, blind: true },
  ...{ rustedPercent: 1, edgePercent: null, how: measurement ? "photo" : "eye", measurement },
});

const record = smallRecord([
  look("2026-03-09", "third"),
  look("2026-03-01", "by hand"),
  look("2026-03-02", "first"),
  look("2026-03-01", "other coupon", "2"),
  look("2026-03-01", "other face", "1", "back"),
  look("2026-03-05", null),
]);
const measurements = [
  measured("third", { hiddenMm: [hole] }),
  measured("by hand", { byCard: false }),
  ...["first", "other coupon", "other face"].map((id) => measured(id)),
];
const photographs = photographsOf(record, measurements, { coupon: "1", face: "front" });

describe("a face's earlier photographs", () => {
  test("are its own, by date", () => {
    expect(photographs.map(({ date, measurement }) => `${date} ${measurement.id}`)).toEqual([
      "2026-03-01 by hand",
      "2026-03-02 first",
      "2026-03-09 third",
    ]);
  });

  test.each([
    // a look on     is compared with
    ["2026-03-01", null],
    ["2026-03-02", null],
    ["2026-03-03", "first"],
    ["2026-03-20", "first"],
  ])("a look on %s is compared with the first on the card before it: %s", (date, id) =>
    expect(firstPhotograph(photographs, date)?.measurement ?? null).toBe(id),
  );

  test("what was left out at the last look is proposed for the next; nothing before that", () => {
    expect(leftOutBefore(photographs, "2026-03-08")).toBeNull();
    expect(leftOutBefore(photographs, "2026-03-20")).toEqual({ places: { hiddenMm: [hole] }, sizeMm });
  });

  test("a request names it by the card and as its number reads; else it names none", () => {
    const first = firstPhotograph(photographs, "2026-03-20");
    expect(comparedWith(first, { cornersPx: null, sizeMm })).toEqual({ first: "first" });
    expect(comparedWith(first, { cornersPx: null, sizeMm: { lengthMm: 100, widthMm: 150 } })).toEqual({});
    const cornersPx: [P, P, P, P] = [
      [0, 0],
      [9, 0],
      [9, 6],
      [0, 6],
    ];
    expect(comparedWith(first, { cornersPx, sizeMm })).toEqual({});
    expect(comparedWith(null, { cornersPx: null, sizeMm })).toEqual({});
  });

  test("beside a look that was compared stands the photograph it was compared with, while that one is older", () => {
    const compared = { ...measured("third"), rustSince: { first: "first" } } as unknown as Measurement;
    const all = [compared, ...measurements.slice(1)];
    const third = record.looks.find(({ body }) => body.measurement === "third")!;
    expect(firstOfLook(record, all, third)?.date).toBe("2026-03-02");
    expect(firstOfLook(record, measurements, third)?.date).toBe("2026-03-02");
    const putBefore = { ...third, body: { ...third.body, when: { date: "2026-03-02" } } };
    expect(firstOfLook(record, all, putBefore)).toBeNull();
    const first = record.looks.find(({ body }) => body.measurement === "first")!;
    expect(firstOfLook(record, measurements, first)).toBeNull();
  });
});
