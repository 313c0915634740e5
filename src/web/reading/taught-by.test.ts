import { describe, expect, test } from "vitest";
import type { SavedModel } from "../../api/rust-model.ts";
import { sameModel, taughtBy } from "./taught-by.ts";

const saved = (version: number, strokes: number, measurement: string, refines: number | null): SavedModel => ({
  ...{ name: "my finish", version, finishAndLight: "dry, lamp", by: "Ada", measurement, strokes },
  from: refines === null ? null : { name: "my finish", version: refines },
  savedAt: "2026-04-01T08:00:00Z",
});
const all = [saved(4, 2, "b", 1), saved(3, 5, "c", 2), saved(2, 3, "a", 1), saved(1, 8, "a", null)];

describe("what taught a model", () => {
  test.each([
    // version, strokes, photographs
    [1, 8, 1],
    [2, 11, 1],
    [3, 16, 2],
    [4, 10, 2],
  ])("version %d: %d strokes on %d photographs", (version, strokes, photographs) =>
    expect(taughtBy(all.find((one) => one.version === version)!, all)).toEqual({ strokes, photographs }),
  );
});

test("a model is its name and version; the program's own is none", () => {
  expect(sameModel({ name: "a", version: 1 }, { name: "a", version: 1 })).toBe(true);
  expect(sameModel({ name: "a", version: 1 }, { name: "a", version: 2 })).toBe(false);
  expect(sameModel(null, { name: "a", version: 1 })).toBe(false);
  expect(sameModel(null, null)).toBe(true);
});
