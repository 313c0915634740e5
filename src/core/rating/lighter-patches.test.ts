import { expect, test } from "vitest";
import { lampSuspectedDeltaE, lighterPatchesDeltaE } from "./lighter-patches.ts";

test.each([
  ["nothing differs", [], 0],
  ["a patch of 12 mm, lighter by 7", [{ areaMm2: 113, deltaE: 7, lighter: true }], 0.176],
  ["darker patches move it too, but are no lamp", [{ areaMm2: 2000, deltaE: 9, lighter: false }], 0],
  ["a third of the face lighter by 20", [{ areaMm2: 1500, deltaE: 20, lighter: true }], 6.67],
] as const)("%s", (_, patches, deltaE) => {
  expect(lighterPatchesDeltaE(patches, 4500)).toBeCloseTo(deltaE, 2);
});

test("only the last of them is worth a second photograph", () => {
  const seen = (areaMm2: number, deltaE: number) => lighterPatchesDeltaE([{ areaMm2, deltaE, lighter: true }], 4500);
  expect(seen(113, 7)).toBeLessThan(lampSuspectedDeltaE);
  expect(seen(1500, 20)).toBeGreaterThan(lampSuspectedDeltaE);
});

test("a face without area is refused", () => expect(() => lighterPatchesDeltaE([], 0)).toThrow(/faceMm2/));
