/** Abrasion by falling sand, ASTM D968. */
import { requireNotNegative, requirePositive } from "../input-error.ts";
import { milFromUm } from "./wear-index.ts";

/**
 * Sand needed to wear through a film, per thickness; more is better.
 *
 * Method   abrasion.fallingSand
 * Formula  A = V / T
 * Units    sand in L, thickness in µm; results in L per mil and L per µm
 * Source   ASTM D968, formula from memory
 * Status   memory
 * Holds    within one laboratory; between laboratories only the order of films
 * Refuses  a negative volume; a thickness of 0 or less
 */
export function fallingSand({ sandVolumeL, thicknessUm }: { sandVolumeL: number; thicknessUm: number }): {
  litresPerMil: number;
  litresPerUm: number;
} {
  requireNotNegative("sandVolumeL", sandVolumeL);
  requirePositive("thicknessUm", thicknessUm);
  return { litresPerMil: sandVolumeL / milFromUm(thicknessUm), litresPerUm: sandVolumeL / thicknessUm };
}
