/** The smallest difference that usually matters. Offered, never silently applied: the user takes it or types another. */
import type { DeclaredResponse } from "./trial-record.ts";

/** A factor for time and area, classes for tape. Common practice. */
export const offeredMargins: Readonly<Record<DeclaredResponse, number>> = {
  "time to first rust": 1.5,
  "rusted area": 2,
  "tape class": 1,
};
