/** The smallest difference that usually matters. Offered, never silently applied: the user takes it or types another. */
import type { DeclaredResponse } from "./declared-question.ts";

/** A factor for times, strokes and area, classes for grades and tape. A value of one's own has no usual one. Common practice. */
export const offeredMargins: Readonly<Record<Exclude<DeclaredResponse, "value">, number>> = {
  "time to first rust": 1.5,
  "rusted area": 2,
  "tape class": 1,
  grade: 1,
  "strokes to breakthrough": 1.5,
};
