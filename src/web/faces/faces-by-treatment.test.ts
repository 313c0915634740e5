import { describe, expect, test } from "vitest";
import { smallRecord } from "../../../tests/small-trial.ts";
import type { Measurement } from "../../api/photo.ts";
import type { ObservationBody } from "../../core/trial/trial-record.ts";
import { looksTable } from "../../report/figures/looks-table.ts";
import { facesByTreatment, photographedDates } from "./faces-by-treatment.ts";

const look = (coupon: string, date: string, measurement: string | null): ObservationBody => ({
  ...{ kind: "look", coupon, face: "front", when: { date }, blind: true },
  ...{ rustedPercent: 1, edgePercent: null, how: measurement ? "photo" : "eye", measurement },
});
const looks = [
  look("1", "2026-03-02", "a"),
  look("2", "2026-03-02", "b"),
  look("1", "2026-03-09", "c"),
  look("3", "2026-03-05", null),
];
const measurements = ["a", "b", "c"].map((id) => ({ id, overlay: id }) as unknown as Measurement);
const blind = smallRecord(looks);
const closed = smallRecord([...looks, { kind: "unblinding" }]);

describe("while the trial is blind nothing shows a photograph with its treatment", () => {
  test("no faces by treatment, whatever the date", () => {
    for (const date of ["2026-03-02", "2026-03-09", "2027-01-01"])
      expect(facesByTreatment(blind, measurements, date)).toBeNull();
  });

  test("no treatment in the grid of looks, nor an order that would give it away", () => {
    const { rows } = looksTable(blind, measurements);
    expect(rows.map(({ treatment }) => treatment)).toEqual(rows.map(() => null));
    expect(rows.map(({ coupon }) => coupon)).not.toEqual(
      looksTable(closed, measurements).rows.map(({ coupon }) => coupon),
    );
  });
});

test("closed: a row for each treatment in the plan's order, its coupons by number", () =>
  expect(
    facesByTreatment(closed, measurements, "2026-03-02")!.map(({ treatment, faces }) => [
      treatment,
      ...faces.map(({ coupon, measurement }) => `${coupon}: ${measurement?.id ?? "none"}`),
    ]),
  ).toEqual([
    ["oiled", "2: b"],
    ["phosphated", "1: a"],
    ["bare", "3: none"],
  ]));

test("dates with a photograph, the newest first", () =>
  expect(photographedDates(blind, measurements)).toEqual(["2026-03-09", "2026-03-02"]));
