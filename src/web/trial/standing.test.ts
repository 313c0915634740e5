import { describe, expect, test } from "vitest";
import { lost, putOut, smallPlan, smallRecord } from "../../../tests/small-trial.ts";
import type { ObservationBody, Plan } from "../../core/trial/trial-record.ts";
import { rustSpans, vanishedRust } from "../../report/figures/rust-spans.ts";
import { standingSentence } from "./standing.ts";

const look = (
  coupon: string,
  date: string,
  rustedPercent: number,
  face: "front" | "back" = "front",
): ObservationBody => ({
  kind: "look",
  coupon,
  face,
  when: { date },
  rustedPercent,
  edgePercent: null,
  how: "eye",
  blind: true,
  measurement: null,
});
const oiled: ObservationBody = {
  kind: "application",
  step: "emulsion oil",
  coupons: ["2"],
  startedAt: "2026-02-27T09:00:00Z",
  endedAt: null,
  tempC: null,
  note: "",
};

describe("the first sentence", () => {
  test.each<[string, ObservationBody[], string]>([
    ["drawn", [], "4 coupons are drawn and nothing has been done to them yet."],
    ["being coated", [oiled], "1 of 4 coupons went through a step; none is outdoors yet."],
    ["outdoors", [putOut], "3 coupons hang at shed, on day 9."],
    [
      "one lost, one rusted",
      [putOut, lost, look("1", "2026-03-02", 0), look("3", "2026-03-02", 2)],
      "2 coupons hang at shed, on day 9. Rust was seen on 1 of 2.",
    ],
    [
      "none rusted",
      [putOut, look("1", "2026-03-02", 0)],
      "3 coupons hang at shed, on day 9. No rust has been seen on any of 1 so far.",
    ],
  ])("%s", (_what, bodies, sentence) => expect(standingSentence(smallRecord(bodies), "2026-03-10")).toBe(sentence));

  const fromTable: Plan = { ...smallPlan, allocation: { how: "assumed" } };
  const somewhere: ObservationBody = { kind: "put out", site: null, date: "2026-03-01", coupons: ["1", "2", "3"] };
  test.each<[string, ObservationBody[], Plan, string]>([
    [
      "closed: nobody says that they still hang",
      [putOut, look("1", "2026-03-05", 0), { kind: "unblinding" }],
      smallPlan,
      "3 coupons at shed, last looked at on day 4. No rust has been seen on any of 1 so far. The trial is closed; treatments are shown.",
    ],
    [
      "from a table without a site: days that somebody knows, not up to today",
      [somewhere, look("1", "2026-03-05", 2)],
      fromTable,
      "3 coupons, last looked at on day 4. Rust was seen on 1 of 1.",
    ],
    [
      "from a table of strokes",
      [
        {
          kind: "wear test",
          coupon: "1",
          place: null,
          when: null,
          leftStrokes: 10,
          rightStrokes: 20,
          blind: true,
          note: "",
        },
      ],
      fromTable,
      "3 coupons. 1 wear test written down.",
    ],
  ])("%s", (_what, bodies, plan, sentence) =>
    expect(standingSentence(smallRecord(bodies, plan), "2026-09-10")).toBe(sentence),
  );
});

describe("first rust of each coupon", () => {
  test("the worse face decides", () =>
    expect(
      rustSpans(
        smallRecord([
          putOut,
          look("1", "2026-03-02", 0),
          look("1", "2026-03-05", 0),
          look("1", "2026-03-05", 1, "back"),
        ]),
      ),
    ).toEqual([{ coupon: "1", left: 1, right: 4 }]));
  test("a class worse than the best is rust, and rust that is gone again is said", () => {
    const graded = (date: string, rating: number): ObservationBody => ({
      kind: "look",
      coupon: "1",
      face: "front",
      when: { date },
      rating,
      scale: "iso4628",
      edgePercent: null,
      how: "table",
      blind: true,
      measurement: null,
    });
    const record = smallRecord([putOut, graded("2026-03-02", 1), graded("2026-03-04", 0), graded("2026-03-08", 3)]);
    expect(rustSpans(record)).toEqual([{ coupon: "1", left: 3, right: 7 }]);
    expect(vanishedRust(record)).toMatchObject([{ coupon: "1", vanishedOnDays: [1] }]);
  });
  test("a written time stands for itself", () =>
    expect(
      rustSpans(
        smallRecord([{ kind: "first rust", coupon: "2", leftDays: 7, rightDays: null, blind: true, note: "" }]),
      ),
    ).toEqual([{ coupon: "2", left: 7, right: null }]));
  test("exactly at the threshold is not above it", () =>
    expect(rustSpans(smallRecord([putOut, look("1", "2026-03-02", 0.01)]))).toEqual([
      { coupon: "1", left: 1, right: null },
    ]));
});
