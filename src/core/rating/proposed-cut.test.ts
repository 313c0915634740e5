import { expect, test } from "vitest";
import { proposedCut } from "./proposed-cut.ts";

test.each([
  // µm, D3359: mm and cuts or an X, ISO 2409 on steel: mm (always 6 cuts); secondary copies
  [50, [1, 11], 1],
  [51, [2, 6], 1],
  [61, [2, 6], 2],
  [125, [2, 6], 3],
  [126, "x-cut", 3],
  [251, "x-cut", null],
] as const)("a film of %d µm: D3359 %j, ISO 2409 %j mm", (thicknessUm, d3359, isoMm) => {
  const { d3359: cut, iso2409 } = proposedCut(thicknessUm);
  expect(cut.form === "x-cut" ? cut.form : [cut.spacingMm, cut.cuts]).toEqual(d3359);
  expect(iso2409?.spacingMm ?? null).toBe(isoMm);
});

test("refuses no film", () => expect(() => proposedCut(0)).toThrow(/^thicknessUm/));
