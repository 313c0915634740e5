/** One rusted area on the scale of the standard that was asked for. */
import { requireOneOf } from "../input-error.ts";
import { type D610Grade, d610Grade } from "./d610-grade.ts";
import { type Iso4628Degree, type Iso4628Mapping, iso4628Degree } from "./iso4628-3-degree.ts";
import { type Iso10289Rating, protectionRating } from "./iso10289-rating.ts";

export const rustStandards = ["ASTM D610", "ISO 4628-3", "ISO 10289"] as const;
export type RustStandard = (typeof rustStandards)[number];

/**
 * Rust grade of a face from its rusted area, by one of three standards.
 *
 * Method   rating.rustGradeFromAreaPercent
 * Formula  the first row of the standard's table whose limit is not below the area; for ISO 4628-3 the first reference
 *          picture not better ("upperLimit") or the nearest on the logarithmic scale ("nearestPicture")
 * Units    areaPercent: % of the assessed area, 0 to 100, never rounded first
 * Source   ASTM D610, Table 1; ISO 10289, Table 1; ISO 4628-3, reference pictures with a mapping rule of this project
 * Status   published
 * Holds    D610 and ISO 4628-3 on painted steel, ISO 10289 on metallic and inorganic coatings; on a bare conversion
 *          coating say "D610 area scale applied to it". The ISO 4628-3 mapping is common practice, not published.
 * Refuses  a percentage outside 0 to 100; another standard; another mapping
 */
export function rustGrade(face: {
  areaPercent: number;
  standard: RustStandard;
  mapping?: Iso4628Mapping;
}): D610Grade | Iso4628Degree | Iso10289Rating {
  requireOneOf("standard", face.standard, rustStandards);
  switch (face.standard) {
    case "ASTM D610":
      return d610Grade(face.areaPercent);
    case "ISO 4628-3":
      return iso4628Degree(face.areaPercent, face.mapping);
    case "ISO 10289":
      return protectionRating(face.areaPercent);
  }
}
