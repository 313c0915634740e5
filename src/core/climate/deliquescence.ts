/** Humidity at which a salt pulls water out of the air. */
import { requireOneOf } from "../input-error.ts";
import { requireBetween } from "./require-between.ts";

/** RH(%) = a exp(b / T), T in kelvin, within 2 %: CRC Handbook, constant humidity solutions (published). */
export const salts = {
  "CaCl2.6H2O": { a: 0.11, b: 1653 },
  "MgCl2.6H2O": { a: 29.26, b: 34 },
  NH4NO3: { a: 3.54, b: 853 },
  NaNO3: { a: 26.94, b: 302 },
  NaCl: { a: 69.2, b: 25 },
  NH4Cl: { a: 35.67, b: 235 },
  "(NH4)2SO4": { a: 62.06, b: 79 },
  KCl: { a: 49.38, b: 159 },
  KNO3: { a: 43.22, b: 225 },
  K2SO4: { a: 86.75, b: 34 },
} as const;
export type Salt = keyof typeof salts;
const saltNames = [
  "CaCl2.6H2O",
  "MgCl2.6H2O",
  "NH4NO3",
  "NaNO3",
  "NaCl",
  "NH4Cl",
  "(NH4)2SO4",
  "KCl",
  "KNO3",
  "K2SO4",
] as const satisfies readonly Salt[];

/**
 * Humidity over a saturated salt: above it the salt, and steel under it, is wet.
 *
 * Method   climate.deliquescenceRh
 * Formula  RH = a exp(b / T), T in kelvin
 * Units    °C in, % out
 * Source   CRC Handbook, constant humidity solutions (Wexler)
 * Status   published
 * Holds    within 2 % near room temperature; jars of NaCl (75 %) and MgCl2 (33 %) check a logger
 * Refuses  a salt not in the table; a temperature outside -40 to 50 °C
 */
export function deliquescenceRh({ salt, tempC }: { salt: Salt; tempC: number }): number {
  requireOneOf("salt", salt, saltNames);
  requireBetween("tempC", tempC, { least: -40, most: 50, because: "weather" });
  const { a, b } = salts[salt];
  return a * Math.exp(b / (tempC + 273.15));
}
