import { describe, expect, test } from "vitest";
import { lost, putOut, smallRecord } from "../../../tests/small-trial.ts";
import type { ObservationBody } from "../../core/trial/trial-record.ts";
import { rustSpans } from "../../report/figures/rust-spans.ts";
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
  test("exactly at the threshold is not above it", () =>
    expect(rustSpans(smallRecord([putOut, look("1", "2026-03-02", 0.01)]))).toEqual([
      { coupon: "1", left: 1, right: null },
    ]));
});
