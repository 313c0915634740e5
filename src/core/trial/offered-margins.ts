/** The smallest difference that usually matters. Offered, never silently applied: the user takes it or types another. */
import { type DeclaredQuestion, type DeclaredResponse, marginKind } from "./declared-question.ts";

/** A factor for times, strokes and area, classes for grades and tape. A value of one's own has no usual one. Common practice. */
export const offeredMargins: Readonly<Record<Exclude<DeclaredResponse, "value">, number>> = {
  "time to first rust": 1.5,
  "rusted area": 2,
  "tape class": 1,
  grade: 1,
  "strokes to breakthrough": 1.5,
};

/** The difference that a plan is simulated for where the user stated none; a value in its own unit has no usual one. Common practice. */
const usualDifference = { factor: 2, classes: 1, share: 0.2, difference: null } as const;

/** The margin, or else the usual difference, in the margin's own measure; null: it must be asked. */
export function differenceToFind(declared: DeclaredQuestion): number | null {
  return declared.margin ?? usualDifference[marginKind(declared)];
}
