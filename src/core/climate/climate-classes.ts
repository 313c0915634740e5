/** Classes of wetness, pollution and corrosivity. In every table an upper limit belongs to its class. */
import { requireNotNegative, requireOneOf } from "../input-error.ts";
import { requireBetween } from "./require-between.ts";

type Limit<Name extends string> = { name: Name; upTo: number };

function classOf<Name extends string>(limits: readonly Limit<Name>[], value: number): Name | "outside" {
  return limits.find((limit) => value <= limit.upTo)?.name ?? "outside";
}

/** Wetness classes, h per year (ISO 9223:1992, secondary copy). */
export const wetnessLimits = [
  { name: "tau1", upTo: 10 },
  { name: "tau2", upTo: 250 },
  { name: "tau3", upTo: 2500 },
  { name: "tau4", upTo: 5500 },
  { name: "tau5", upTo: 8784 },
] as const;

/**
 * Class of a year's time of wetness.
 *
 * Method   climate.timeOfWetnessClass
 * Formula  the first class whose limit is not below the hours
 * Units    wet hours per year
 * Source   ISO 9223:1992 (secondary copy)
 * Status   published
 * Holds    for a full year; from fewer than 330 logged days give the share of logged time instead
 * Refuses  more hours than a year has (8784); fewer than 0
 */
export function timeOfWetnessClass(wetHoursPerYear: number): (typeof wetnessLimits)[number]["name"] {
  requireBetween("wetHoursPerYear", wetHoursPerYear, { least: 0, most: 8784, because: "hours of a year" });
  return wetnessLimits.find((limit) => wetHoursPerYear <= limit.upTo)!.name;
}

/** Sulfur dioxide deposition, mg/m² a day: ISO 9223:1992 (secondary copy) and 2012 (from memory). */
export const so2Limits = {
  "1992": [
    { name: "P0", upTo: 10 },
    { name: "P1", upTo: 35 },
    { name: "P2", upTo: 80 },
    { name: "P3", upTo: 200 },
  ],
  "2012": [
    { name: "P0", upTo: 4 },
    { name: "P1", upTo: 24 },
    { name: "P2", upTo: 80 },
    { name: "P3", upTo: 200 },
  ],
} as const;

/**
 * Pollution class by sulfur dioxide.
 *
 * Method   climate.so2Class
 * Formula  the first class whose limit is not below the deposition
 * Units    mg/m² a day
 * Source   ISO 9223, edition 1992 (secondary copy) or 2012 (from memory)
 * Status   memory
 * Holds    for yearly means
 * Refuses  a negative deposition; another edition
 */
export function so2Class(air: { so2DepositionMgM2Day: number; edition: "1992" | "2012" }) {
  requireOneOf("edition", air.edition, ["1992", "2012"]);
  requireNotNegative("so2DepositionMgM2Day", air.so2DepositionMgM2Day);
  return classOf(so2Limits[air.edition], air.so2DepositionMgM2Day);
}

/** Chloride deposition, mg/m² a day (ISO 9223, secondary copy). */
export const chlorideLimits = [
  { name: "S0", upTo: 3 },
  { name: "S1", upTo: 60 },
  { name: "S2", upTo: 300 },
  { name: "S3", upTo: 1500 },
] as const;

/**
 * Pollution class by airborne chloride.
 *
 * Method   climate.chlorideClass
 * Formula  the first class whose limit is not below the deposition
 * Units    mg/m² a day
 * Source   ISO 9223 (secondary copy)
 * Status   published
 * Holds    for yearly means
 * Refuses  a negative deposition
 */
export function chlorideClass(chlorideDepositionMgM2Day: number) {
  requireNotNegative("chlorideDepositionMgM2Day", chlorideDepositionMgM2Day);
  return classOf(chlorideLimits, chlorideDepositionMgM2Day);
}

const categories = ["C1", "C2", "C3", "C4", "C5", "CX"] as const;
const named = <Name extends string>(names: readonly Name[], limits: readonly number[]): readonly Limit<Name>[] =>
  names.map((name, at) => ({ name, upTo: limits[at]! }));

/**
 * ISO 9223, first-year loss (secondary copy; the CX limits other than steel in µm from memory).
 * The columns of µm and g/m² are rounded separately: an area loss is classified as it was measured.
 */
export const corrosivityLimits = {
  carbonSteel: {
    umPerYear: named(categories, [1.3, 25, 50, 80, 200, 700]),
    gM2Year: named(categories, [10, 200, 400, 650, 1500, 5500]),
  },
  zinc: {
    umPerYear: named(categories, [0.1, 0.7, 2.1, 4.2, 8.4, 25]),
    gM2Year: named(categories, [0.7, 5, 15, 30, 60, 180]),
  },
} as const;

/**
 * Corrosivity category of a place, from what bare metal lost there in its first year.
 *
 * Method   climate.corrosivityCategory
 * Formula  the first category whose limit is not below the loss, in the unit given
 * Units    µm or g/m² a year
 * Source   ISO 9223 (secondary copy)
 * Status   published
 * Holds    for a full first year of bare, flat, standard specimens
 * Refuses  a negative loss; another metal or unit
 */
export function corrosivityCategory(loss: {
  metal: keyof typeof corrosivityLimits;
  firstYearLoss: number;
  unit: "umPerYear" | "gM2Year";
}) {
  requireOneOf("metal", loss.metal, ["carbonSteel", "zinc"]);
  requireOneOf("unit", loss.unit, ["umPerYear", "gM2Year"]);
  requireNotNegative("firstYearLoss", loss.firstYearLoss);
  return classOf(corrosivityLimits[loss.metal][loss.unit], loss.firstYearLoss);
}

const indoorCategories = ["IC1", "IC2", "IC3", "IC4", "IC5"] as const;

/** ISO 11844-1, mass loss in mg/m² a year; all from memory. */
export const indoorLimits = {
  carbonSteel: named(indoorCategories, [70, 1000, 10_000, 70_000, 200_000]),
  zinc: named(indoorCategories, [50, 250, 700, 2500, 5000]),
  copper: named(indoorCategories, [50, 200, 900, 2000, 5000]),
  silver: named(indoorCategories, [170, 670, 3000, 6700, 16_700]),
} as const;

/**
 * Corrosivity category of an indoor place.
 *
 * Method   climate.indoorCategory
 * Formula  the first category whose limit is not below the loss
 * Units    mg/m² a year
 * Source   ISO 11844-1, limits from memory
 * Status   memory
 * Holds    for a year of bare metal indoors
 * Refuses  a negative loss; another metal
 */
export function indoorCategory(loss: { metal: keyof typeof indoorLimits; massLossMgM2Year: number }) {
  requireOneOf("metal", loss.metal, ["carbonSteel", "zinc", "copper", "silver"]);
  requireNotNegative("massLossMgM2Year", loss.massLossMgM2Year);
  return classOf(indoorLimits[loss.metal], loss.massLossMgM2Year);
}
