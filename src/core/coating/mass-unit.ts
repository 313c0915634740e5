/** Coating masses as papers and data sheets give them. */
import { requireNotNegative, requireOneOf } from "../input-error.ts";

const footM = 0.3048;

/** g/m² in one of each unit. */
const gM2Of = { gM2: 1, mgFt2: 0.001 / footM ** 2, gFt2: 1 / footM ** 2, mgDm2: 0.1 } as const;
const coatingMassUnits = ["gM2", "mgFt2", "gFt2", "mgDm2"] as const;
type CoatingMassUnit = (typeof coatingMassUnits)[number];

/**
 * A coating mass per area in g/m².
 *
 * Method   coating.massUnit
 * Formula  1 mg/ft² = 0.001 / 0.3048² g/m²; 1 mg/dm² = 0.1 g/m²
 * Units    g/m², mg/ft², g/ft² or mg/dm² in, g/m² out
 * Source   unit identity, 1 ft = 0.3048 m exactly
 * Status   computed
 * Holds    always
 * Refuses  a negative value; a unit that is not offered
 */
export function coatingMassInGM2({ value, unit }: { value: number; unit: CoatingMassUnit }): number {
  requireNotNegative("value", value);
  requireOneOf("unit", unit, coatingMassUnits);
  return value * gM2Of[unit];
}
