import { describe, expect, test } from "vitest";
import type { Measurement } from "../../api/photo.ts";
import type { Look, Observed } from "../../core/trial/trial-record.ts";
import { olderReadings } from "./older-readings.ts";
import { readLook, requestAgain } from "./read-again.ts";

const byHand = { by: "Ines", why: "a shadow", from: "m0" };
const measured = (id: string, method: string, hand: Measurement["byHand"] = null) =>
  ({
    id,
    method,
    byHand: hand,
    rustedPercent: 4,
    edgePercent: 7,
    request: { id, photo: "p", shopModel: { name: "wax", version: 1 } },
  }) as unknown as Measurement;
const look = (id: string, part: Partial<Look>) =>
  ({
    ...{ id, by: "Ada", corrects: null, recordedAt: "2026-05-01T08:00:00Z" },
    body: { kind: "look", coupon: id, face: "front", when: { date: "2026-05-01" }, blind: true, ...part },
  }) as Observed<Look>;

const measurements = [
  measured("m1", "old"),
  measured("m2", "new"),
  measured("m3", "old", byHand),
  measured("m4", "old"),
];
const looks = [
  look("1", { rustedPercent: 3, how: "photo", measurement: "m1" }),
  look("2", { rustedPercent: 3, how: "photo", measurement: "m2" }),
  look("3", { rustedPercent: 3, how: "photo", measurement: "m3" }),
  look("4", { rustedPercent: 3, how: "eye", measurement: null }),
  look("5", { rating: 8, scale: "d610" } as unknown as Partial<Look>),
];

describe("photographs read by an older way", () => {
  test("those alone: not what is read by it already, mended by hand, graded by eye, or of no look", () => {
    const { older, byHand } = olderReadings({ looks }, measurements, "new");
    expect(older.map(({ look }) => look.id)).toEqual(["1"]);
    expect(byHand).toBe(1);
  });

  test("asked for as before, under an id of its own and by the model of now", () => {
    const again = requestAgain(measurements[0]!, { name: "wax", version: 2 });
    expect(again).toMatchObject({ photo: "p", shopModel: { name: "wax", version: 2 } });
    expect(again.id).not.toBe("m1");
    expect(requestAgain(measurements[0]!, null)).not.toHaveProperty("shopModel");
  });

  test("the look stays the same but for its number, names what it replaces and why, and is as blind as it was", () => {
    const [one] = olderReadings({ looks }, measurements, "new").older;
    const again = readLook(one!, measured("m9", "new"), { by: "Ines", why: "read again" });
    expect(again).toMatchObject({
      by: "Ines",
      corrects: { id: "1", why: "read again" },
      body: { ...looks[0]!.body, rustedPercent: 4, edgePercent: 7, measurement: "m9" },
    });
  });
});
