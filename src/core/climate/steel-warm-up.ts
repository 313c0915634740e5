/** Cold steel in warmer air: how slowly it follows, and how long dew stays on it. */
import { InputError, requireNotNegative, requireOneOf, requirePositive } from "../input-error.ts";
import { dewPoint } from "./humid-air.ts";
import { requireBetween } from "./require-between.ts";

/** Steel, handbook values from memory. */
export const steel = { densityKgM3: 7850, heatCapacityJKgK: 470, conductivityWMK: 50 } as const;

/** Volume over area: a sheet from both faces t/2, a bar d/4, a cube a/6. */
const volumeOverArea = { sheet: 1 / 2, bar: 1 / 4, cube: 1 / 6 } as const;
const shapes = ["sheet", "bar", "cube"] as const;
export type SteelBody = { shape: (typeof shapes)[number]; sizeMm: number; heatTransferWM2K: number };

/** Above this Biot number the inside lags behind the skin, and one temperature is not enough. */
const lumpedBelowBiot = 0.1;

/**
 * Time in which steel makes up 63 % of a temperature difference to the air.
 *
 * Method   climate.steelTimeConstant
 * Formula  density x heat capacity x (volume / area) / heat transfer coefficient
 * Units    mm and W/m²K in, s out; size is thickness, diameter or edge
 * Source   lumped body; steel 7850 kg/m³, 470 J/kgK, 50 W/mK from memory
 * Status   memory
 * Holds    for a Biot number below 0.1; 5 to 10 W/m²K in still air, 10 to 25 in a breeze
 * Refuses  a Biot number of 0.1 or more; a size or coefficient of 0 or less; another shape
 */
export function steelTimeConstant({ shape, sizeMm, heatTransferWM2K }: SteelBody): number {
  requireOneOf("shape", shape, shapes);
  requirePositive("sizeMm", sizeMm);
  requirePositive("heatTransferWM2K", heatTransferWM2K);
  const lengthM = (sizeMm / 1000) * volumeOverArea[shape];
  const biot = (heatTransferWM2K * lengthM) / steel.conductivityWMK;
  if (biot >= lumpedBelowBiot)
    throw new InputError("sizeMm", sizeMm, `a smaller body: its Biot number is ${biot.toPrecision(3)}, not below 0.1`);
  return (steel.densityKgM3 * steel.heatCapacityJKgK * lengthM) / heatTransferWM2K;
}

/**
 * Temperature of cold steel carried into warmer air, and how long it stays below the dew point.
 *
 * Method   climate.steelWarmUp
 * Formula  Ts = Ta + (T0 - Ta) exp(-t / tau); wet until tau ln((Ta - T0) / (Ta - Td))
 * Units    °C, %, mm, W/m²K and s in; °C and s out
 * Source   lumped body; dew point after Alduchov and Eskridge 1996
 * Status   memory
 * Holds    for a Biot number below 0.1, without the heat of the dew itself; wetTimeS is null in saturated air, where it never dries
 * Refuses  as the time constant and the dew point; a negative time
 */
export function steelWarmUp(
  body: SteelBody & { startTempC: number; airTempC: number; rhPercent: number; elapsedS: number },
): { steelTempC: number; dewPointC: number; wetTimeS: number | null } {
  const { startTempC, airTempC, rhPercent, elapsedS } = body;
  const timeConstantS = steelTimeConstant(body);
  requireBetween("startTempC", startTempC, { least: -273.15, most: 1000, because: "a temperature of steel" });
  requireBetween("airTempC", airTempC, { least: -40, most: 50, because: "where the dew point holds" });
  requireNotNegative("elapsedS", elapsedS);
  const dewPointC = dewPoint({ tempC: airTempC, rhPercent });
  return {
    steelTempC: airTempC + (startTempC - airTempC) * Math.exp(-elapsedS / timeConstantS),
    dewPointC,
    wetTimeS: wetTime({ startTempC, airTempC, dewPointC, timeConstantS }),
  };
}

function wetTime(at: {
  startTempC: number;
  airTempC: number;
  dewPointC: number;
  timeConstantS: number;
}): number | null {
  if (at.startTempC >= at.dewPointC) return 0;
  if (at.dewPointC >= at.airTempC) return null;
  return at.timeConstantS * Math.log((at.airTempC - at.startTempC) / (at.airTempC - at.dewPointC));
}
