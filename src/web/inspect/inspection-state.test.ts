import { describe, expect, test } from "vitest";
import { keptInspection } from "./inspection-state.ts";

const photo = {
  hash: "a".repeat(64),
  mediaType: "image/jpeg",
  bytes: 1,
  widthPx: 4000,
  heightPx: 3000,
  takenAt: null,
};
const corners = [
  [1, 1],
  [2, 1],
  [2, 2],
  [1, 2],
];

describe("what a reload goes on with", () => {
  test("half-set corners", () => {
    const kept = { step: "corners", photo, corners, reads: "along" };
    expect(keptInspection(kept)).toEqual(kept);
  });
  test("a white place that was pointed at, before and while it is measured", () => {
    const kept = { step: "corners", photo, corners, reads: "along", white: [30, 40] };
    expect(keptInspection(kept)).toEqual(kept);
    const measuring = { ...kept, step: "measuring", measurement: "0198c0de-0000-4000-8000-000000000001" };
    expect(keptInspection(measuring)).toEqual(measuring);
  });
  test.each([
    ["nothing kept", null],
    ["a shape of an earlier version", { step: "corners", photo }],
    ["three corners", { step: "corners", photo, corners: corners.slice(1), reads: "along" }],
    ["something else altogether", "corners"],
  ])("%s: the picture is asked for", (_name, kept) => expect(keptInspection(kept)).toEqual({ step: "picture" }));
});
