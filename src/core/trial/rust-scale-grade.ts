/** The grade of a rusted area on the scale that the user reads. */
import { rustGrade } from "../rating/rust-grade.ts";
import type { RustScale } from "./scale-ends.ts";

const standards = { iso10289: "ISO 10289", d610: "ASTM D610", iso4628: "ISO 4628-3" } as const;

/** areaPercent: % of the face without its edge band. */
export function gradeOnScale(scale: RustScale, areaPercent: number): number {
  return rustGrade({ areaPercent, standard: standards[scale] });
}
