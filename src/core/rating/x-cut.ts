/** Adhesion by tape over an X-cut: ASTM D3359 method A and ISO 16276-2. */
import { InputError, requireNotNegative, requireOneOf } from "../input-error.ts";
import type { TapeClass } from "./tape-classes.ts";

/** What came off, from nothing to more than the X; a jagged edge is measured to either side of a cut. */
export const xCutRemovals = ["none", "trace", "jagged", "mostOfX", "beyondX"] as const;
export type XCutRemoval = (typeof xCutRemovals)[number];

/** The two scales, and the jag widths (mm, either side, upper limits included) between their jagged classes. */
export const xCutScales = {
  /** Method A table (secondary copy): 1.6 mm, 3.2 mm. */
  "ASTM D3359": {
    none: "5A",
    trace: "4A",
    jagged: [
      { upToMm: 1.6, grade: "3A" },
      { upToMm: 3.2, grade: "2A" },
    ],
    mostOfX: "1A",
    beyondX: "0A",
  },
  /** X-cut classes, from memory: 1.5 mm, 3 mm. */
  "ISO 16276-2": {
    none: 0,
    trace: 1,
    jagged: [
      { upToMm: 1.5, grade: 2 },
      { upToMm: 3, grade: 3 },
    ],
    mostOfX: 4,
    beyondX: 5,
  },
} as const;
export type XCutStandard = keyof typeof xCutScales;
const xCutStandards = ["ASTM D3359", "ISO 16276-2"] as const satisfies readonly XCutStandard[];

/**
 * Class of an X-cut tape test.
 *
 * Method   rating.tapeTestXCut
 * Formula  by what came off; a jagged edge by its width to either side, wider than the last limit as most of the X
 * Units    jagWidthMm in mm to either side of the cut
 * Source   ASTM D3359 method A; ISO 16276-2 X-cut classes (from memory)
 * Status   memory
 * Holds    D3359 5A is best and 0A worst, ISO 0 is best and 5 worst; meant for films over 125 µm
 * Refuses  a standard or removal not listed; a jagged edge without its width
 */
export function xCutClass(cut: {
  standard: XCutStandard;
  removal: XCutRemoval;
  jagWidthMm?: number;
}): TapeClass | 0 | 1 | 2 | 3 | 4 | 5 {
  requireOneOf("standard", cut.standard, xCutStandards);
  requireOneOf("removal", cut.removal, xCutRemovals);
  const scale = xCutScales[cut.standard];
  if (cut.removal !== "jagged") return scale[cut.removal];
  const { jagWidthMm } = cut;
  requireNotNegative("jagWidthMm", jagWidthMm);
  if (jagWidthMm === 0) throw new InputError("jagWidthMm", jagWidthMm, "a width above 0 for a jagged edge");
  return scale.jagged.find((row) => jagWidthMm <= row.upToMm)?.grade ?? scale.mostOfX;
}
