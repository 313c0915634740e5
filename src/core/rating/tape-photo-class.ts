/**
 * Classes of a tape test from what photographs show, on the scales of both standards.
 *
 * Which words of an X-cut's scale apply is told by rules of this project: "trace" is removal along less than a tenth of the cuts or
 * nowhere wider than 0.4 mm; "most of the X" is more than half of what lies within its ends; "beyond" is a seventh of that area or
 * more outside it as well. Less than the picture can show counts as nothing.
 *
 * Units    % of the assessed area, mm
 * Source   ASTM D3359 A and B, ISO 2409, ISO 16276-2 for the classes; the rules above are our own
 * Status   common practice
 */
import { requireNotNegative, requirePercent } from "../input-error.ts";
import { d3359CrossCutGrade, type Iso2409Class, iso2409Class } from "./cross-cut.ts";
import { type TapeClass, tapeClasses } from "./tape-classes.ts";
import { type XCutRemoval, xCutClass } from "./x-cut.ts";

/** Below it a photograph shows nothing, % of the assessed area. */
export const leastRemovalSeenPercent = 0.4;

export type TapePhotoClass = { d3359: TapeClass; iso: Iso2409Class };

/** Lattice: ASTM D3359 B and ISO 2409, from the removed percent of the lattice. */
export function latticePhotoClass(removedPercent: number): TapePhotoClass {
  requirePercent("removedPercent", removedPercent);
  const seen = removedPercent < leastRemovalSeenPercent ? 0 : removedPercent;
  return { d3359: d3359CrossCutGrade(seen), iso: iso2409Class(seen) };
}

/** The class of D3359 that a lattice could as well be, where the reading's own span (%) reaches over a limit; null where none. */
export function latticeOtherClass(removedPercent: number, span: { from: number; to: number }): TapeClass | null {
  const own = latticePhotoClass(removedPercent).d3359;
  const reached = [span.from, span.to].map((percent) => latticePhotoClass(percent).d3359);
  return reached.find((one) => one !== own) ?? null;
}

const trace = { flakedPercent: 10, jagWidthMm: 0.4 } as const;
const mostOfXPercent = 50;
const beyondXPercent = 14;

/** What the scale of X-cuts calls it; jag widths in mm, the rest in %. */
export function xRemovalWord(seen: {
  removedPercent: number;
  jagWidthMm: number;
  flakedPercent: number;
  withinXPercent: number;
  beyondXPercent: number;
}): XCutRemoval {
  requirePercent("removedPercent", seen.removedPercent);
  requireNotNegative("jagWidthMm", seen.jagWidthMm);
  if (seen.removedPercent < leastRemovalSeenPercent) return "none";
  if (seen.withinXPercent > mostOfXPercent) return seen.beyondXPercent >= beyondXPercent ? "beyondX" : "mostOfX";
  return seen.flakedPercent < trace.flakedPercent || seen.jagWidthMm < trace.jagWidthMm ? "trace" : "jagged";
}

/** X-cut: ASTM D3359 A and ISO 16276-2. */
export function xPhotoClass(seen: Parameters<typeof xRemovalWord>[0]): TapePhotoClass {
  const removal = xRemovalWord(seen);
  const cut = removal === "jagged" ? { removal, jagWidthMm: seen.jagWidthMm } : { removal };
  const d3359 = tapeClasses.find((one) => one === xCutClass({ standard: "ASTM D3359", ...cut }))!;
  const iso = ([0, 1, 2, 3, 4, 5] as const).find((one) => one === xCutClass({ standard: "ISO 16276-2", ...cut }))!;
  return { d3359, iso };
}
