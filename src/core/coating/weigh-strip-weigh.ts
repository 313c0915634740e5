/** Coating mass and steel dissolved from three weighings: bare, coated, stripped. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";

/**
 * Coating mass by stripping, corrected by what a bare coupon loses in the same stripper.
 *
 * Method   coating.weighStripWeigh
 * Formula  coating = (coated - stripped - blank) / A; steel dissolved = (before - stripped - blank) / A
 * Units    g, mg and cm² in, g/m² out
 * Source   ISO 3892, difference weighing; the blank by ISO 8407
 * Status   published
 * Holds    on dry coats without oil or wax, as a mean over the area
 * Refuses  a mass that rose on stripping; a blank above the loss; a coupon heavier stripped than before; an area of 0 or less
 */
export function weighStripWeigh(coupon: {
  massBeforeG: number;
  massCoatedG: number;
  massStrippedG: number;
  areaCm2: number;
  blankLossMg?: number;
}): { coatingMassGM2: number; steelDissolvedGM2: number } {
  const { massBeforeG, massCoatedG, massStrippedG, areaCm2, blankLossMg = 0 } = coupon;
  for (const [name, massG] of Object.entries({ massBeforeG, massCoatedG, massStrippedG, blankLossMg }))
    requireNotNegative(name, massG);
  requirePositive("areaCm2", areaCm2);
  if (massStrippedG > massCoatedG)
    throw new InputError("massStrippedG", massStrippedG, `at most the coated mass, ${massCoatedG} g`);
  const blankG = blankLossMg / 1000;
  const coatingG = massCoatedG - massStrippedG - blankG;
  // A blank typed to the last digit may equal the loss; the subtraction then leaves a rounding error.
  if (coatingG < -1e-12) throw new InputError("blankLossMg", blankLossMg, "at most what the coupon lost on stripping");
  const steelG = massBeforeG - massStrippedG - blankG;
  if (steelG < -1e-12)
    throw new InputError(
      "massStrippedG",
      massStrippedG,
      `at most the mass before coating, ${massBeforeG} g: the strip is not complete`,
    );
  const perArea = (massG: number) => (Math.max(0, massG) * 10_000) / areaCm2;
  return { coatingMassGM2: perArea(coatingG), steelDissolvedGM2: perArea(steelG) };
}
