/** Water in the air: what it can hold, where dew falls, how humid it is at the metal. */
import { InputError, requirePercent } from "../input-error.ts";
import { requireBetween } from "./require-between.ts";

/** Magnus constants over water, Alduchov and Eskridge 1996 (secondary copy); range from memory. */
export const magnus = { hPaAtZero: 6.1094, slope: 17.625, offsetC: 243.04, leastC: -40, mostC: 50 } as const;

function requireAirTemp(argument: string, tempC: unknown): asserts tempC is number {
  requireBetween(argument, tempC, { least: magnus.leastC, most: magnus.mostC, because: "where the constants hold" });
}

/** Humidity of air that holds any water at all. */
function requireDamp(rhPercent: unknown): asserts rhPercent is number {
  requirePercent("rhPercent", rhPercent);
  if (rhPercent === 0) throw new InputError("rhPercent", rhPercent, "a humidity above 0: dry air has no dew point");
}

/**
 * Saturation vapour pressure over water.
 *
 * Method   climate.saturationVapourPressure
 * Formula  es = 6.1094 exp(17.625 T / (243.04 + T))
 * Units    °C in, hPa out
 * Source   Alduchov and Eskridge 1996
 * Status   computed
 * Holds    from -40 to 50 °C, over (supercooled) water, not over ice
 * Refuses  a temperature outside -40 to 50 °C
 */
export function saturationVapourPressure(tempC: number): number {
  requireAirTemp("tempC", tempC);
  return saturationHPa(tempC);
}

function saturationHPa(tempC: number): number {
  return magnus.hPaAtZero * Math.exp((magnus.slope * tempC) / (magnus.offsetC + tempC));
}

/**
 * Temperature at which this air starts to condense.
 *
 * Method   climate.dewPoint
 * Formula  g = ln(RH/100) + aT / (b+T); Td = b g / (a - g), a 17.625, b 243.04 °C
 * Units    °C and % in, °C out
 * Source   Alduchov and Eskridge 1996, inverted
 * Status   computed
 * Holds    from -40 to 50 °C, over water
 * Refuses  a temperature outside -40 to 50 °C; a humidity of 0 or outside 0 to 100 %
 */
export function dewPoint({ tempC, rhPercent }: { tempC: number; rhPercent: number }): number {
  requireAirTemp("tempC", tempC);
  requireDamp(rhPercent);
  if (rhPercent === 100) return tempC;
  const g = Math.log(rhPercent / 100) + (magnus.slope * tempC) / (magnus.offsetC + tempC);
  return (magnus.offsetC * g) / (magnus.slope - g);
}

/**
 * Mass of water in a cubic metre of air.
 *
 * Method   climate.absoluteHumidity
 * Formula  216.68 e / (T + 273.15), e = RH/100 es(T) in hPa
 * Units    °C and % in, g/m³ out
 * Source   ideal gas, factor from memory
 * Status   memory
 * Holds    from -40 to 50 °C
 * Refuses  a temperature outside -40 to 50 °C; a humidity outside 0 to 100 %
 */
export function absoluteHumidity({ tempC, rhPercent }: { tempC: number; rhPercent: number }): number {
  requireAirTemp("tempC", tempC);
  requirePercent("rhPercent", rhPercent);
  return (216.68 * (rhPercent / 100) * saturationHPa(tempC)) / (tempC + 273.15);
}

/**
 * Humidity right at a surface that is colder or warmer than the air.
 *
 * Method   climate.rhAtSurface
 * Formula  100 e / es(surface), e = RH/100 es(air); it condenses at 100 or more
 * Units    °C and % in, % out (above 100 where it condenses)
 * Source   Alduchov and Eskridge 1996
 * Status   computed
 * Holds    from -40 to 50 °C; a salted surface is wet from the salt's deliquescence on, long before 100 %
 * Refuses  a temperature outside -40 to 50 °C; a humidity outside 0 to 100 %
 */
export function rhAtSurface(air: { airTempC: number; rhPercent: number; surfaceTempC: number }): {
  surfaceRhPercent: number;
  condensation: boolean;
} {
  requireAirTemp("airTempC", air.airTempC);
  requirePercent("rhPercent", air.rhPercent);
  requireAirTemp("surfaceTempC", air.surfaceTempC);
  const surfaceRhPercent = (air.rhPercent * saturationHPa(air.airTempC)) / saturationHPa(air.surfaceTempC);
  return { surfaceRhPercent, condensation: surfaceRhPercent >= 100 };
}

/**
 * Humidity of air whose dew point is known.
 *
 * Formula  100 es(dew point) / es(air)
 * Units    °C in, % out (above 100 where the dew point was read above the air)
 * Source   Alduchov and Eskridge 1996
 * Status   computed
 * Refuses  a temperature outside -40 to 50 °C
 */
export function rhFromDewPoint({ tempC, dewPointC }: { tempC: number; dewPointC: number }): number {
  requireAirTemp("tempC", tempC);
  requireAirTemp("dewPointC", dewPointC);
  return (100 * saturationHPa(dewPointC)) / saturationHPa(tempC);
}

/** Painting and oiling habit: steel at least this far above the dew point (common specification). */
export const safeMarginC = 3;

/**
 * How far steel stands above the dew point.
 *
 * Method   climate.dewPointMargin
 * Formula  margin = steel - dew point of the air
 * Units    °C and % in, °C out
 * Source   Alduchov and Eskridge 1996; 3 °C is a common specification for coating work
 * Status   common practice
 * Holds    from -40 to 50 °C; measure the steel, not the air beside it
 * Refuses  an air temperature outside -40 to 50 °C; a humidity of 0 or outside 0 to 100 %
 */
export function dewPointMargin(air: { airTempC: number; rhPercent: number; steelTempC: number }): {
  marginC: number;
  atLeast3C: boolean;
} {
  requireAirTemp("airTempC", air.airTempC);
  requireBetween("steelTempC", air.steelTempC, { least: -273.15, most: 2000, because: "a temperature of steel" });
  const marginC = air.steelTempC - dewPoint({ tempC: air.airTempC, rhPercent: air.rhPercent });
  return { marginC, atLeast3C: marginC >= safeMarginC };
}
