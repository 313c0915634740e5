/** Corrosion rate of a coupon from the mass it lost. */
import { requireNotNegative, requireOneOf, requirePositive } from "../input-error.ts";
import { mmFromInch } from "../units.ts";

const hoursPerYear = 8760;

/** How each unit follows from the attack in cm per hour and the metal's density. Exact conversions, no rounded K. */
const conversions = {
  umPerYear: (cmPerHour: number) => cmPerHour * 1e4 * hoursPerYear,
  mmPerYear: (cmPerHour: number) => cmPerHour * 10 * hoursPerYear,
  milPerYear: (cmPerHour: number) => (cmPerHour * 1e4 * hoursPerYear) / mmFromInch(1),
  inchPerYear: (cmPerHour: number) => (cmPerHour * 10 * hoursPerYear) / mmFromInch(1),
  pmPerSecond: (cmPerHour: number) => (cmPerHour * 1e10) / 3600,
  gM2Hour: (cmPerHour: number, densityGCm3: number) => cmPerHour * densityGCm3 * 1e4,
  gM2Year: (cmPerHour: number, densityGCm3: number) => cmPerHour * densityGCm3 * 1e4 * hoursPerYear,
  mgDm2Day: (cmPerHour: number, densityGCm3: number) => cmPerHour * densityGCm3 * 1e5 * 24,
  ugM2Second: (cmPerHour: number, densityGCm3: number) => (cmPerHour * densityGCm3 * 1e10) / 3600,
} as const;
export type CorrosionRateUnit = keyof typeof conversions;
export const corrosionRateUnits = [
  "umPerYear",
  "mmPerYear",
  "milPerYear",
  "inchPerYear",
  "pmPerSecond",
  "gM2Hour",
  "gM2Year",
  "mgDm2Day",
  "ugM2Second",
] as const satisfies readonly CorrosionRateUnit[];

/**
 * Mean corrosion rate over an exposure.
 *
 * Method   corrosion.rateFromMassLoss
 * Formula  rate = mass loss / (area x hours x density), turned into the unit; a year has 8760 h
 * Units    g, cm², h and g/cm³ in; out as the unit says
 * Source   ASTM G1, ISO 8407; exact conversions instead of the standard's rounded constants
 * Status   computed
 * Holds    for even attack; on a phosphated coupon only with unexposed phosphated blanks, since cleaning strips the coating
 * Refuses  a negative loss; an area, time or density of 0 or less; another unit
 */
export function corrosionRateFromMassLoss(coupon: {
  massLossG: number;
  areaCm2: number;
  hours: number;
  densityGCm3: number;
  unit: CorrosionRateUnit;
}): number {
  requireNotNegative("massLossG", coupon.massLossG);
  requirePositive("areaCm2", coupon.areaCm2);
  requirePositive("hours", coupon.hours);
  requirePositive("densityGCm3", coupon.densityGCm3);
  requireOneOf("unit", coupon.unit, corrosionRateUnits);
  const cmPerHour = coupon.massLossG / (coupon.areaCm2 * coupon.hours * coupon.densityGCm3);
  return conversions[coupon.unit](cmPerHour, coupon.densityGCm3);
}
