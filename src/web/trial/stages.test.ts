import { describe, expect, test } from "vitest";
import { putOut, smallRecord } from "../../../tests/small-trial.ts";
import type { ObservationBody } from "../../core/trial/trial-record.ts";
import { stagesOf } from "./stages.ts";

const now = (bodies: ObservationBody[]) => stagesOf(smallRecord(bodies)).find((stage) => stage.state === "now")?.id;
const look: ObservationBody = {
  kind: "look",
  coupon: "1",
  face: "front",
  when: { day: 1 },
  rustedPercent: 0,
  edgePercent: null,
  how: "eye",
  blind: true,
  measurement: null,
};

describe("how far a trial has come", () => {
  test.each<[string, ObservationBody[], string]>([
    ["just drawn", [], "rack"],
    ["put out", [putOut], "outdoors"],
    ["looked at", [putOut, look], "looks"],
    ["a table that never said what was done or where", [look], "looks"],
    ["closed", [putOut, look, { kind: "unblinding" }], "findings"],
  ])("%s", (_what, bodies, stage) => expect(now(bodies)).toBe(stage));

  test("stages before it are behind, later ones ahead", () =>
    expect(stagesOf(smallRecord([putOut])).map((stage) => stage.state)).toEqual([
      ...new Array(5).fill("reached"),
      "now",
      ...new Array(3).fill("ahead"),
    ]));
});
