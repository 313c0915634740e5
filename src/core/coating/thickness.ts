/** Coating mass per area and thickness, one from the other. */
import { requireNotNegative, requirePositive } from "../input-error.ts";

/**
 * Thickness of an even layer of the given mass.
 *
 * Method   coating.massToThickness
 * Formula  t = m / rho
 * Units    g/m² and g/cm³ in, µm out
 * Source   mass over density
 * Status   computed
 * Holds    as a mean over the face; a porous layer has the density of the layer, not of its crystal
 * Refuses  a negative mass; a density of 0 or less
 */
export function thicknessFromCoatingMass(layer: { coatingMassGM2: number; densityGCm3: number }): number {
  requireNotNegative("coatingMassGM2", layer.coatingMassGM2);
  requirePositive("densityGCm3", layer.densityGCm3);
  return layer.coatingMassGM2 / layer.densityGCm3;
}

/**
 * Mass of an even layer of the given thickness.
 *
 * Method   coating.thicknessToMass
 * Formula  m = t rho
 * Units    µm and g/cm³ in, g/m² out
 * Source   mass over density
 * Status   computed
 * Holds    as a mean over the face
 * Refuses  a negative thickness; a density of 0 or less
 */
export function coatingMassFromThickness(layer: { thicknessUm: number; densityGCm3: number }): number {
  requireNotNegative("thicknessUm", layer.thicknessUm);
  requirePositive("densityGCm3", layer.densityGCm3);
  return layer.thicknessUm * layer.densityGCm3;
}
