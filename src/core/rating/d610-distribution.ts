/** The letter beside a D610 grade: how the rust is spread over the face. */
import { requireList, requirePercent, requirePositive } from "../input-error.ts";
import { d610Grade } from "./d610-grade.ts";

export type D610Letter = "S" | "G" | "P" | "H";

/** Our rule; the standard shows pictures. */
const rule = { pinpointMm: 1, pinpointsMoreThan: 20, spotShare: 0.7, spotsLargest: 3 } as const;

export type RustSpot = { xMm: number; areaMm2: number };

/**
 * Spot (S), general (G), pinpoint (P) or hybrid (H) rusting from the rust's spots; null where the grade takes no letter (10 and 0).
 *
 * Units    spots' middle in mm along the length of the coupon, area in mm²; areaPercent: % of the assessed area
 * Source   ASTM D610, types of distribution; the rule that computes them from spots is this project's
 * Status   common practice
 */
export function d610Letter(areaPercent: number, spots: readonly RustSpot[], lengthMm: number): D610Letter | null {
  requirePercent("areaPercent", areaPercent);
  requireList("spots", spots, 0);
  requirePositive("lengthMm", lengthMm);
  const grade = d610Grade(areaPercent);
  if (grade === 10 || grade === 0 || spots.length === 0) return null;
  const halves = [
    spots.filter((spot) => spot.xMm < lengthMm / 2),
    spots.filter((spot) => spot.xMm >= lengthMm / 2),
  ].filter((half) => half.length > 0);
  const [one, other] = halves.map(plainLetter);
  // Two kinds side by side are a hybrid, unless one of them is only what is left over.
  if (one && other && one !== other && one !== "G" && other !== "G") return "H";
  return plainLetter(spots);
}

function plainLetter(spots: readonly RustSpot[]): "S" | "G" | "P" {
  const areas = spots.map((spot) => spot.areaMm2).sort((a, b) => b - a);
  const diameters = areas.map((area) => 2 * Math.sqrt(area / Math.PI));
  // Sorted from the largest: a tenth of the way down stands the 90th percentile.
  const high = diameters[Math.floor(0.1 * diameters.length)]!;
  if (high < rule.pinpointMm && areas.length > rule.pinpointsMoreThan) return "P";
  const total = areas.reduce((sum, area) => sum + area, 0);
  const largest = areas.slice(0, rule.spotsLargest).reduce((sum, area) => sum + area, 0);
  return largest >= rule.spotShare * total ? "S" : "G";
}
