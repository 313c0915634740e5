/**
 * Degree of rusting of painted steel, ISO 4628-3.
 *
 * Units    % of the assessed area
 * Source   ISO 4628-3, areas of its reference pictures (secondary copy); the mapping to limits is this project's rule
 * Status   common practice
 */
import { requireOneOf, requirePercent } from "../input-error.ts";

/**
 * ISO 4628-3: rusted area of the reference picture of each degree (secondary copy of the standard).
 * These are areas of pictures, not limits of classes: a mapping says which picture an area belongs to.
 */
export const iso4628Pictures = [
  { degree: 0, percent: 0 },
  { degree: 1, percent: 0.05 },
  { degree: 2, percent: 0.5 },
  { degree: 3, percent: 1 },
  { degree: 4, percent: 8 },
  { degree: 5, percent: Math.sqrt(40 * 50) }, // the standard says 40 to 50 %
] as const;
export type Iso4628Degree = (typeof iso4628Pictures)[number]["degree"];

/** "upperLimit": not better than the picture. "nearestPicture": the picture nearest on the logarithmic scale. */
export const iso4628Mappings = ["upperLimit", "nearestPicture"] as const;
export type Iso4628Mapping = (typeof iso4628Mappings)[number];

/** Degree Ri, 0 (none) to 5, from the rusted area in percent; the mapping is a rule of this project. */
export function iso4628Degree(areaPercent: number, mapping: Iso4628Mapping = "upperLimit"): Iso4628Degree {
  requirePercent("areaPercent", areaPercent);
  requireOneOf("mapping", mapping, iso4628Mappings);
  if (areaPercent === 0) return 0;
  const fits = iso4628Pictures.find((picture, at) => {
    const next = iso4628Pictures[at + 1];
    if (!next) return true;
    // Nearest on the logarithmic scale: below the geometric mean of the two pictures. Nothing is near to no rust.
    return mapping === "upperLimit"
      ? areaPercent <= picture.percent
      : areaPercent < Math.sqrt(picture.percent * next.percent);
  });
  return fits!.degree;
}
