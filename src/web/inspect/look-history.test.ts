import { describe, expect, test } from "vitest";
import type { Observation } from "../../core/trial/trial-record.ts";
import { lookHistory } from "./look-history.ts";

const look = (id: string, corrects: string | null): Observation => ({
  id,
  recordedAt: "2026-03-01T10:00:00Z",
  by: "J",
  corrects: corrects === null ? null : { id: corrects, why: "label taken for rust" },
  body: {
    kind: "look",
    coupon: "7",
    face: "front",
    when: { date: "2026-03-01" },
    rustedPercent: 1,
    edgePercent: null,
    how: "photo",
    blind: true,
    measurement: null,
  },
});
const withdrawn: Observation = { ...look("w", "a"), body: { kind: "withdrawal" } };

describe("the wordings of a look", () => {
  test.each<[string, Observation[], string, string[]]>([
    ["never corrected", [look("a", null), look("x", null)], "a", ["a"]],
    ["corrected twice", [look("c", "b"), look("a", null), look("b", "a")], "c", ["a", "b", "c"]],
    ["withdrawn and taken up again", [look("a", null), withdrawn, look("n", "w")], "n", ["a", "n"]],
    ["unknown", [], "a", []],
  ])("%s", (_name, observations, id, ids) => expect(lookHistory(observations, id).map((one) => one.id)).toEqual(ids));
});
