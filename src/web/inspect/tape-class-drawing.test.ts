import { describe, expect, test } from "vitest";
import { latticeLoss, xCutLoss } from "./tape-class-drawing.ts";

describe("drawings of the tape classes", () => {
  test("class 5 has lost nothing", () => {
    expect(latticeLoss(5)).toEqual([]);
    expect(xCutLoss(5)).toEqual([]);
  });

  test.each([
    // class, squares gone of 25, at least %, at most %: ASTM D3359, published
    [2, 15, 35],
    [1, 35, 65],
    [0, 65, 100],
  ])("class %dB is drawn inside its own limits", (step, above, upTo) => {
    const gone = (new Set(latticeLoss(step)).size / 25) * 100;
    expect(gone).toBeGreaterThan(above);
    expect(gone).toBeLessThanOrEqual(upTo);
  });

  test("no two classes of one cut are drawn alike", () => {
    for (const loss of [latticeLoss, xCutLoss])
      expect(new Set([5, 4, 3, 2, 1, 0].map((step) => loss(step).join())).size).toBe(6);
  });
});
