/**
 * Rust grade by rusted area, ASTM D610.
 *
 * Units    % of the assessed area
 * Source   ASTM D610, Table 1
 * Status   published
 */
import { requirePercent } from "../input-error.ts";

/** ASTM D610, Table 1 (published). An upper limit belongs to its grade. The only copy of these numbers. */
export const d610Limits = [
  { grade: 10, upToPercent: 0.01 },
  { grade: 9, upToPercent: 0.03 },
  { grade: 8, upToPercent: 0.1 },
  { grade: 7, upToPercent: 0.3 },
  { grade: 6, upToPercent: 1 },
  { grade: 5, upToPercent: 3 },
  { grade: 4, upToPercent: 10 },
  { grade: 3, upToPercent: 16 },
  { grade: 2, upToPercent: 33 },
  { grade: 1, upToPercent: 50 },
  { grade: 0, upToPercent: 100 },
] as const;
export type D610Grade = (typeof d610Limits)[number]["grade"];

/**
 * Rust grade of a face, 10 (none) to 0, from its rusted area in percent: the first limit not below it.
 * Made for painted steel; on a bare conversion coating say "D610 area scale applied to it".
 */
export function d610Grade(areaPercent: number): D610Grade {
  requirePercent("areaPercent", areaPercent);
  // Graded as measured: rounded first, 0.014 % would read as 0.01 % and gain a grade.
  return d610Limits.find((row) => areaPercent <= row.upToPercent)!.grade;
}
