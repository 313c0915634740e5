/**
 * Classes of a tape test from what photographs show, on the scales of both standards.
 *
 * Which words of an X-cut's scale apply is told by rules of this project, all by the distance from the cuts that the scale itself
 * speaks of. "Jagged" reaches at most 3.2 mm to either side; "most of the X" takes more than a quarter of what lies within its ends
 * farther off than that; "beyond" more than two fifths of the millimetre outside them as well. "Trace" is less than a twentieth of the
 * band of 3.2 mm (0.16 mm on average along both sides), or nowhere wider than 0.4 mm. Less than the picture can show is nothing.
 *
 * Units    % of the assessed area, mm
 * Source   ASTM D3359 A and B, ISO 2409, ISO 16276-2 for the classes; the rules above are our own
 * Status   common practice
 */
import { requireNotNegative, requirePercent } from "../input-error.ts";
import { d3359CrossCutGrade, type Iso2409Class, iso2409Class } from "./cross-cut.ts";
import { type TapeClass, tapeClasses } from "./tape-classes.ts";
import { type XCutRemoval, xCutClass } from "./x-cut.ts";

/** Below it a photograph of a lattice shows nothing, % of its area. */
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

/** Below it a photograph of an X shows nothing, % of its band. */
export const leastXRemovalSeenPercent = 0.2;
const trace = { belowPercent: 5, belowMm: 0.4 } as const;
const mostOfXFarPercent = 25;
const beyondXOutsidePercent = 40;

type SeenX = { removedPercent: number; jagWidthMm: number; farPercent: number; outsidePercent: number };

/** What the scale of X-cuts calls it; jag widths in mm, the rest in %. */
export function xRemovalWord(seen: SeenX): XCutRemoval {
  requirePercent("removedPercent", seen.removedPercent);
  requireNotNegative("jagWidthMm", seen.jagWidthMm);
  if (seen.removedPercent < leastXRemovalSeenPercent) return "none";
  if (seen.farPercent > mostOfXFarPercent) return seen.outsidePercent > beyondXOutsidePercent ? "beyondX" : "mostOfX";
  return seen.removedPercent < trace.belowPercent || seen.jagWidthMm < trace.belowMm ? "trace" : "jagged";
}

/** How far each measure of an X may be off, as a rule: mm, points. */
const xError = { jagMm: 0.2, farPoints: 12, outsidePoints: 20 } as const;

/** The class of D3359 that an X could as well be, where one measure's own error reaches over a limit; null where none does. */
export function xOtherClass(seen: SeenX, span: { from: number; to: number }): TapeClass | null {
  const own = xPhotoClass(seen).d3359;
  const upTo = (percent: number) => Math.max(0, Math.min(100, percent));
  const changed: Partial<SeenX>[] = [
    ...[span.from, span.to].map((removedPercent) => ({ removedPercent })),
    ...[-xError.jagMm, xError.jagMm].map((by) => ({ jagWidthMm: Math.max(0, seen.jagWidthMm + by) })),
    ...[-xError.farPoints, xError.farPoints].map((by) => ({ farPercent: upTo(seen.farPercent + by) })),
    ...[-xError.outsidePoints, xError.outsidePoints].map((by) => ({ outsidePercent: upTo(seen.outsidePercent + by) })),
  ];
  const reached = changed.map((part) => xPhotoClass({ ...seen, ...part }).d3359);
  return reached.find((one) => one !== own) ?? null;
}

/** X-cut: ASTM D3359 A and ISO 16276-2. */
export function xPhotoClass(seen: SeenX): TapePhotoClass {
  const removal = xRemovalWord(seen);
  const cut = removal === "jagged" ? { removal, jagWidthMm: seen.jagWidthMm } : { removal };
  const d3359 = tapeClasses.find((one) => one === xCutClass({ standard: "ASTM D3359", ...cut }))!;
  const iso = ([0, 1, 2, 3, 4, 5] as const).find((one) => one === xCutClass({ standard: "ISO 16276-2", ...cut }))!;
  return { d3359, iso };
}
