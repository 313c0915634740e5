/** When dew stands on a steel sheet that follows the air with a lag. */
import { InputError } from "../input-error.ts";
import { dewPoint, magnus } from "./humid-air.ts";
import { type ClimateReading, standingSpans } from "./standing-spans.ts";
import { steelTimeConstant } from "./steel-warm-up.ts";

/** Still air around a hanging coupon: within the 5 to 10 W/m²K of a handbook (from memory). */
export const stillAirWM2K = 8;

/** Below this the method would be asked about a sheet that nobody can hang. */
const thinnestMm = 0.01;

const secondsPerHour = 3600;

/**
 * Stretches of time in which dew stands on both faces of a steel sheet. The sheet begins at the first air temperature, and
 * again after every stretch without a reading; in each stretch it nears that stretch's air as a lumped body.
 *
 * Formula  Ts = Ta + (T0 - Ta) exp(-t / tau) while a reading stands; dew while Ts is not above the dew point
 * Units    h, °C, %, mm, W/m²K
 * Source   lumped body; dew point after Alduchov and Eskridge 1996
 * Status   memory
 * Holds    in still air under a roof; a clear night sky cools an open face further, and the heat of the dew itself is left out
 */
export function steelCondensation(log: {
  series: ClimateReading[];
  intervalHours: number;
  thicknessMm: number;
  heatTransferWM2K: number;
}): { fromHours: number; durationHours: number }[] {
  if (!(log.thicknessMm >= thinnestMm))
    throw new InputError("thicknessMm", log.thicknessMm, `a thickness of ${thinnestMm} mm or more`);
  const { heatTransferWM2K } = log;
  const timeConstantS = steelTimeConstant({ shape: "sheet", sizeMm: log.thicknessMm, heatTransferWM2K });
  let steelTempC: number | null = null;
  return standingSpans(log).flatMap(({ fromHours, durationHours, air }) => {
    if (air === null || air.tempC < magnus.leastC || air.tempC > magnus.mostC) {
      steelTempC = null;
      return [];
    }
    const startTempC: number = steelTempC ?? air.tempC;
    const durationS = durationHours * secondsPerHour;
    steelTempC = air.tempC + (startTempC - air.tempC) * Math.exp(-durationS / timeConstantS);
    const dewyS = Math.min(durationS, dewyTimeS(startTempC, air, timeConstantS));
    return dewyS > 0 ? [{ fromHours, durationHours: dewyS / secondsPerHour }] : [];
  });
}

/** How long dew stays on steel that starts at this temperature; it never comes back while the air stays as it is. */
function dewyTimeS(startTempC: number, air: { tempC: number; rhPercent: number }, timeConstantS: number): number {
  if (air.rhPercent === 0) return 0;
  const dewPointC = dewPoint(air);
  if (startTempC > dewPointC) return 0;
  if (dewPointC >= air.tempC) return Number.POSITIVE_INFINITY;
  return timeConstantS * Math.log((air.tempC - startTempC) / (air.tempC - dewPointC));
}
