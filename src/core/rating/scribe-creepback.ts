/** Creep of rust from a scribe, and failed area away from it, ASTM D1654. */
import { InputError, requireNotNegative, requirePercent, requirePositive } from "../input-error.ts";

/**
 * ASTM D1654, Table 1: mean creep to one side, mm. Ends (none is 10, over 16 mm is 0) from a secondary copy, the rest
 * from memory: correct it if the standard says otherwise.
 */
export const creepLimits = [
  { rating: 10, upToMm: 0 },
  { rating: 9, upToMm: 0.5 },
  { rating: 8, upToMm: 1 },
  { rating: 7, upToMm: 2 },
  { rating: 6, upToMm: 3 },
  { rating: 5, upToMm: 5 },
  { rating: 4, upToMm: 7 },
  { rating: 3, upToMm: 10 },
  { rating: 2, upToMm: 13 },
  { rating: 1, upToMm: 16 },
  { rating: 0, upToMm: Number.POSITIVE_INFINITY },
] as const;

/** ASTM D1654, Table 2: failed area away from the scribe, whole percent; from memory. */
export const unscribedLimits = [
  { rating: 10, upToPercent: 0 },
  { rating: 9, upToPercent: 1 },
  { rating: 8, upToPercent: 3 },
  { rating: 7, upToPercent: 6 },
  { rating: 6, upToPercent: 10 },
  { rating: 5, upToPercent: 20 },
  { rating: 4, upToPercent: 30 },
  { rating: 3, upToPercent: 40 },
  { rating: 2, upToPercent: 55 },
  { rating: 1, upToPercent: 75 },
  { rating: 0, upToPercent: 100 },
] as const;
export type D1654Rating = (typeof creepLimits)[number]["rating"];

/** How the creep was measured: directly, by two widths, or from a photograph's area along the scribe. */
export type CreepMeasurement = {
  creepbackMm?: number;
  overallWidthMm?: number;
  scribeWidthMm?: number;
  creepAreaMm2?: number;
  scribeAreaMm2?: number;
  scribeLengthMm?: number;
};

/**
 * Mean creep to one side of a scribe, and its rating.
 *
 * Method   rating.scribeCreepback
 * Formula  c as measured; c = (overall width - scribe width) / 2; c = (creep area - scribe area) / (2 scribe length);
 *          rating = first row of Table 1 whose limit is not below c
 * Units    mm and mm² in, creepback in mm to one side
 * Source   ISO 4628-8 (widths), ASTM D7087 (area), ASTM D1654 Table 1 (rating)
 * Status   memory
 * Holds    on scribed paint films; widths as the mean of at least six places; stain beyond the creep is not traced
 * Refuses  a width or area less than the scribe's; no measurement, or parts of two; a scribe length of 0
 */
export function scribeCreepback(measured: CreepMeasurement): { creepbackMm: number; rating: D1654Rating } {
  const creepbackMm = creepOf(measured);
  // Differences of decimal lengths carry rounding (11.4 - 1 over 2): it must not push 5 mm over the limit of 5 mm.
  const onLimit = creepLimits.find((row) => creepbackMm <= row.upToMm * (1 + 1e-12));
  return { creepbackMm, rating: onLimit!.rating };
}

function creepOf(measured: CreepMeasurement): number {
  const ways = [
    measured.creepbackMm !== undefined,
    measured.overallWidthMm !== undefined || measured.scribeWidthMm !== undefined,
    measured.creepAreaMm2 !== undefined ||
      measured.scribeAreaMm2 !== undefined ||
      measured.scribeLengthMm !== undefined,
  ];
  if (ways.filter(Boolean).length !== 1)
    throw new InputError(
      "creepbackMm",
      measured.creepbackMm,
      "one measurement: the creep, or two widths, or two areas and the scribe's length",
    );
  if (ways[0]) {
    requireNotNegative("creepbackMm", measured.creepbackMm);
    return measured.creepbackMm;
  }
  return ways[1] ? creepFromWidths(measured) : creepFromAreas(measured);
}

function creepFromWidths({ overallWidthMm, scribeWidthMm }: CreepMeasurement): number {
  requireNotNegative("scribeWidthMm", scribeWidthMm);
  requireNotNegative("overallWidthMm", overallWidthMm);
  if (overallWidthMm < scribeWidthMm)
    throw new InputError("overallWidthMm", overallWidthMm, `at least the scribe's width, ${scribeWidthMm}`);
  return (overallWidthMm - scribeWidthMm) / 2;
}

function creepFromAreas({ creepAreaMm2, scribeAreaMm2, scribeLengthMm }: CreepMeasurement): number {
  requirePositive("scribeLengthMm", scribeLengthMm);
  requireNotNegative("scribeAreaMm2", scribeAreaMm2);
  requireNotNegative("creepAreaMm2", creepAreaMm2);
  if (creepAreaMm2 < scribeAreaMm2)
    throw new InputError("creepAreaMm2", creepAreaMm2, `at least the scribe's area, ${scribeAreaMm2}`);
  return (creepAreaMm2 - scribeAreaMm2) / (2 * scribeLengthMm);
}

/**
 * Rating of the area away from the scribe.
 *
 * Method   rating.unscribedAreaRating
 * Formula  whole percent first (any area above 0 and below 1 % counts as 1 %), then the first row whose limit is not below
 * Units    areaPercent: % of the unscribed area that failed, 0 to 100
 * Source   ASTM D1654, Table 2; the rule below 1 % is this project's
 * Status   memory
 * Holds    on scribed paint films, away from the scribe
 * Refuses  a percentage outside 0 to 100
 */
export function unscribedAreaRating(areaPercent: number): D1654Rating {
  requirePercent("areaPercent", areaPercent);
  const whole = areaPercent > 0 && areaPercent < 1 ? 1 : Math.round(areaPercent);
  return unscribedLimits.find((row) => whole <= row.upToPercent)!.rating;
}
