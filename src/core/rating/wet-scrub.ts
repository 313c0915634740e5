/** Loss of a paint film by wet scrubbing, ISO 11998. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";

/**
 * Film lost by scrubbing, per area and as thickness.
 *
 * Method   abrasion.wetScrub
 * Formula  loss = (before - after) / area; thickness = loss / density
 * Units    g, cm² and g/cm³ in; g/m² and µm out (1 g/m² of density 1 is 1 µm)
 * Source   ISO 11998 (secondary copy)
 * Status   published
 * Holds    for a film dried again before it is weighed
 * Refuses  a mass that rose; an area or density of 0 or less
 */
export function wetScrub(panel: {
  massBeforeG: number;
  massAfterG: number;
  scrubbedAreaCm2: number;
  densityGCm3: number;
}): { lossGM2: number; lossUm: number } {
  const { massBeforeG, massAfterG, scrubbedAreaCm2, densityGCm3 } = panel;
  requireNotNegative("massBeforeG", massBeforeG);
  requireNotNegative("massAfterG", massAfterG);
  requirePositive("scrubbedAreaCm2", scrubbedAreaCm2);
  requirePositive("densityGCm3", densityGCm3);
  if (massAfterG > massBeforeG)
    throw new InputError("massAfterG", massAfterG, `at most the mass before, ${massBeforeG} g`);
  const lossGM2 = ((massBeforeG - massAfterG) * 10_000) / scrubbedAreaCm2;
  return { lossGM2, lossUm: lossGM2 / densityGCm3 };
}
