/** What a year of weather and air does to bare metal: ISO 9223 dose-response, ISO 9224 for longer. */
import { InputError, requireNotNegative, requireOneOf, requirePositive } from "../input-error.ts";
import { requireBetween } from "./require-between.ts";

export const metals = ["carbonSteel", "zinc", "copper", "aluminium"] as const;
export type Metal = (typeof metals)[number];

/**
 * ISO 9223, first-year loss: so2 term = scale Pd^power exp(rh RH + f(T)), chloride term = scale Sd^power exp(rh RH + temp T);
 * f(T) = cold (T - 10) up to 10 °C, warm (T - 10) above. Steel and the warm branch of zinc from public transcriptions that a test
 * value confirms, the cold slope of zinc and copper and aluminium from memory.
 */
export const doseResponses = {
  carbonSteel: {
    so2: { scale: 1.77, power: 0.52, rh: 0.02, cold: 0.15, warm: -0.054 },
    chloride: { scale: 0.102, power: 0.62, rh: 0.033, temp: 0.04 },
  },
  zinc: {
    so2: { scale: 0.0129, power: 0.44, rh: 0.046, cold: 0.038, warm: -0.071 },
    chloride: { scale: 0.0175, power: 0.57, rh: 0.008, temp: 0.085 },
  },
  copper: {
    so2: { scale: 0.0053, power: 0.26, rh: 0.059, cold: 0.126, warm: -0.08 },
    chloride: { scale: 0.01025, power: 0.27, rh: 0.036, temp: 0.049 },
  },
  aluminium: {
    so2: { scale: 0.0042, power: 0.73, rh: 0.025, cold: 0.009, warm: -0.043 },
    chloride: { scale: 0.0018, power: 0.6, rh: 0.02, temp: 0.094 },
  },
} as const;

/** Range of the exposures behind the equations (from memory). */
export const fittedRange = {
  tempC: { least: -17.1, most: 28.7 },
  rhPercent: { least: 34, most: 93 },
  so2: { least: 0.7, most: 150.4 },
  chloride: { least: 0.4, most: 760.5 },
} as const;

/**
 * First-year loss of bare metal in the open air, predicted from yearly means.
 *
 * Method   climate.doseResponse
 * Formula  scale Pd^power exp(rh RH + f(T)) + scale Sd^power exp(rh RH + temp T), constants by metal
 * Units    yearly means in °C, %, mg/m² a day; µm a year out
 * Source   ISO 9223 (secondary copy; zinc below 10 °C, copper, aluminium from memory)
 * Status   memory
 * Holds    for a full first year in the open air, to about -33 to +50 %; not under a roof, not for weeks
 * Refuses  temperature or humidity outside the fitted range; a deposition above it (one below is computed and flagged)
 */
export function doseResponse(place: {
  metal: Metal;
  tempC: number;
  rhPercent: number;
  so2DepositionMgM2Day: number;
  chlorideDepositionMgM2Day: number;
}): { rateUmPerYear: number; withinFittedRange: boolean } {
  const { metal, tempC, rhPercent, so2DepositionMgM2Day: pd, chlorideDepositionMgM2Day: sd } = place;
  requireOneOf("metal", metal, metals);
  const because = "fitted range of the equation";
  requireBetween("tempC", tempC, { ...fittedRange.tempC, because });
  requireBetween("rhPercent", rhPercent, { ...fittedRange.rhPercent, because });
  requireBetween("so2DepositionMgM2Day", pd, { least: 0, most: fittedRange.so2.most, because });
  requireBetween("chlorideDepositionMgM2Day", sd, { least: 0, most: fittedRange.chloride.most, because });
  const { so2, chloride } = doseResponses[metal];
  const warmth = (tempC <= 10 ? so2.cold : so2.warm) * (tempC - 10);
  const bySo2 = so2.scale * pd ** so2.power * Math.exp(so2.rh * rhPercent + warmth);
  const byChloride = chloride.scale * sd ** chloride.power * Math.exp(chloride.rh * rhPercent + chloride.temp * tempC);
  return {
    rateUmPerYear: bySo2 + byChloride,
    withinFittedRange: pd >= fittedRange.so2.least && sd >= fittedRange.chloride.least,
  };
}

/** ISO 9224 exponents: B1 the mean of the sites, B2 cautious. Steel and zinc secondary copies, the others from memory. */
export const attackExponents = {
  carbonSteel: { mean: 0.523, cautious: 0.575 },
  zinc: { mean: 0.813, cautious: 0.873 },
  copper: { mean: 0.667, cautious: 0.726 },
  aluminium: { mean: 0.728, cautious: 0.807 },
} as const;

/** ISO 9224: the power law holds so long, then its tangent. */
const powerLawYears = 20;

/**
 * Attack after more than a year.
 *
 * Method   climate.longTermAttack
 * Formula  r t^b to 20 years; beyond, r (20^b + b 20^(b-1) (t - 20))
 * Units    µm and years
 * Source   ISO 9224 (copper and aluminium exponents from memory)
 * Status   published
 * Holds    from one year on, bare metal in the open air
 * Refuses  less than one year; a negative first year; neither an exponent nor a metal with its set, or both
 */
export function longTermAttack(exposure: {
  firstYearUm: number;
  yearsExposed: number;
  exponentB?: number;
  metal?: Metal;
  exponentSet?: "mean" | "cautious";
}): number {
  const { firstYearUm, yearsExposed } = exposure;
  requireNotNegative("firstYearUm", firstYearUm);
  requirePositive("yearsExposed", yearsExposed);
  if (yearsExposed < 1) throw new InputError("yearsExposed", yearsExposed, "one year or more");
  const b = exponentOf(exposure);
  if (yearsExposed <= powerLawYears) return firstYearUm * yearsExposed ** b;
  return firstYearUm * (powerLawYears ** b + b * powerLawYears ** (b - 1) * (yearsExposed - powerLawYears));
}

function exponentOf({ exponentB, metal, exponentSet }: Parameters<typeof longTermAttack>[0]): number {
  if (exponentB !== undefined) {
    requirePositive("exponentB", exponentB);
    if (metal !== undefined || exponentSet !== undefined)
      throw new InputError("exponentB", exponentB, "an exponent, or a metal with its set, not both");
    return exponentB;
  }
  requireOneOf("metal", metal, metals);
  requireOneOf("exponentSet", exponentSet, ["mean", "cautious"]);
  return attackExponents[metal][exponentSet];
}

/**
 * What chloride adds to the exponent of steel.
 *
 * Method   climate.chlorideExponentIncrement
 * Formula  0.0845 Sd^0.26
 * Units    mg/m² a day
 * Source   ISO 9224
 * Status   published
 * Holds    for carbon steel in the open air
 * Refuses  a negative deposition
 */
export function chlorideExponentIncrement(chlorideDepositionMgM2Day: number): number {
  requireNotNegative("chlorideDepositionMgM2Day", chlorideDepositionMgM2Day);
  return 0.0845 * chlorideDepositionMgM2Day ** 0.26;
}
