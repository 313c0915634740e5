/** Wear by abrasive wheels, ASTM D4060. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";
import { inchFromMm } from "../units.ts";

/**
 * Wear index: mass lost per 1000 cycles; lower is better.
 *
 * Method   abrasion.wearIndex
 * Formula  I = 1000 (before - after) / cycles, divided by the relative density when it is given
 * Units    g and cycles in, mg per 1000 cycles out; relativeDensity without unit
 * Source   ASTM D4060 (secondary copy)
 * Status   published
 * Holds    between panels run alike: same wheels, load and refacing; films of different density only with relativeDensity
 * Refuses  a mass that rose; 0 cycles; a relative density of 0 or less
 */
export function wearIndex(panel: {
  massBeforeG: number;
  massAfterG: number;
  cycles: number;
  relativeDensity?: number;
}): number {
  const { massBeforeG, massAfterG, cycles, relativeDensity = 1 } = panel;
  requireNotNegative("massBeforeG", massBeforeG);
  requireNotNegative("massAfterG", massAfterG);
  requirePositive("cycles", cycles);
  requirePositive("relativeDensity", relativeDensity);
  if (massAfterG > massBeforeG)
    throw new InputError("massAfterG", massAfterG, `at most the mass before, ${massBeforeG} g`);
  const lossMg = (massBeforeG - massAfterG) * 1000;
  return (lossMg * 1000) / cycles / relativeDensity;
}

/**
 * Cycles to wear through, per mil of film.
 *
 * Method   abrasion.cyclesPerMil
 * Formula  W = cycles / thickness, 1 mil = 25.4 µm
 * Units    thicknessUm in µm; result in cycles per mil
 * Source   ASTM D4060 (secondary copy)
 * Status   published
 * Holds    for wear through to the substrate in the middle of the track
 * Refuses  a negative number of cycles; a thickness of 0 or less
 */
export function wearCyclesPerMil({ cycles, thicknessUm }: { cycles: number; thicknessUm: number }): number {
  requirePositive("cycles", cycles);
  requirePositive("thicknessUm", thicknessUm);
  return cycles / milFromUm(thicknessUm);
}

/** A mil is to a micrometre as an inch is to a millimetre. */
export const milFromUm = (thicknessUm: number) => inchFromMm(thicknessUm);
