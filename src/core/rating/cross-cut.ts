/** Adhesion by tape over a lattice of cuts: ASTM D3359 method B and ISO 2409. */
import { InputError, requireOneOf, requirePercent, requirePositive } from "../input-error.ts";
import type { TapeClass } from "./tape-classes.ts";

/**
 * ASTM D3359, method B (secondary copy). 4B is strictly less than 5 %; at 15, 35 and 65 %, which two classes of the text
 * share, the better class is taken (65 % because 0B is strictly more, 15 and 35 % by a rule of this project).
 */
export const d3359CrossCutLimits = [
  { grade: "5B", upToPercent: 0, included: true },
  { grade: "4B", upToPercent: 5, included: false },
  { grade: "3B", upToPercent: 15, included: true },
  { grade: "2B", upToPercent: 35, included: true },
  { grade: "1B", upToPercent: 65, included: true },
  { grade: "0B", upToPercent: 100, included: true },
] as const satisfies readonly { grade: TapeClass; upToPercent: number; included: boolean }[];

/** ISO 2409 (secondary copy): "not greater than", so an upper limit belongs to its class. At 5 % it differs from D3359. */
export const iso2409Limits = [
  { grade: 0, upToPercent: 0 },
  { grade: 1, upToPercent: 5 },
  { grade: 2, upToPercent: 15 },
  { grade: 3, upToPercent: 35 },
  { grade: 4, upToPercent: 65 },
  { grade: 5, upToPercent: 100 },
] as const;

export const crossCutStandards = ["ASTM D3359", "ISO 2409"] as const;
export type CrossCutStandard = (typeof crossCutStandards)[number];
export type D3359CrossCutGrade = (typeof d3359CrossCutLimits)[number]["grade"];
export type Iso2409Class = (typeof iso2409Limits)[number]["grade"];

/** D3359 class, 5B (nothing came off) to 0B, from the removed share of the lattice in percent. */
export function d3359CrossCutGrade(areaRemovedPercent: number): D3359CrossCutGrade {
  requirePercent("areaRemovedPercent", areaRemovedPercent);
  return d3359CrossCutLimits.find((row) =>
    row.included ? areaRemovedPercent <= row.upToPercent : areaRemovedPercent < row.upToPercent,
  )!.grade;
}

/** ISO 2409 class, 0 (nothing came off) to 5, from the removed share of the lattice in percent. */
export function iso2409Class(areaRemovedPercent: number): Iso2409Class {
  requirePercent("areaRemovedPercent", areaRemovedPercent);
  return iso2409Limits.find((row) => areaRemovedPercent <= row.upToPercent)!.grade;
}

/**
 * Class of a cross-cut tape test from the area removed.
 *
 * Method   rating.tapeTestCrossCut
 * Formula  the first row of the standard's table that takes the area
 * Units    areaRemovedPercent: % of the lattice, 0 to 100
 * Source   ASTM D3359 method B; ISO 2409
 * Status   published
 * Holds    D3359 5B is best and 0B worst, ISO 2409 0 is best and 5 worst; at exactly 5 % they differ (3B, 1)
 * Refuses  a percentage outside 0 to 100; another standard
 */
export function crossCutClass(cut: {
  areaRemovedPercent: number;
  standard: CrossCutStandard;
}): D3359CrossCutGrade | Iso2409Class {
  requireOneOf("standard", cut.standard, crossCutStandards);
  return cut.standard === "ASTM D3359"
    ? d3359CrossCutGrade(cut.areaRemovedPercent)
    : iso2409Class(cut.areaRemovedPercent);
}

type Spacing = { spacingMm: number; cuts: number };

/** ASTM D3359 method B: cuts each way by film thickness (secondary copy; beyond 125 µm by agreement, from memory). */
export const d3359Spacings = [
  { upToUm: 50, spacingMm: 1, cuts: 11 },
  { upToUm: 125, spacingMm: 2, cuts: 6 },
  { upToUm: Number.POSITIVE_INFINITY, spacingMm: 5, cuts: 6 },
] as const satisfies readonly (Spacing & { upToUm: number })[];

/** ISO 2409: always six cuts each way; spacing by film thickness and substrate (secondary copy), not above 250 µm. */
export const iso2409Spacings = [
  { upToUm: 60, hardMm: 1, softMm: 2 },
  { upToUm: 120, hardMm: 2, softMm: 2 },
  { upToUm: 250, hardMm: 3, softMm: 3 },
] as const;

/**
 * How far apart and how many cuts to make.
 *
 * Method   rating.crossCutSpacing
 * Formula  the first row of the standard's table whose thickness is not below the film's
 * Units    thicknessUm in µm; spacing in mm; cuts each way
 * Source   ASTM D3359 method B; ISO 2409
 * Status   published
 * Holds    D3359 above 125 µm only by agreement (that row is from memory)
 * Refuses  ISO 2409 above 250 µm or without the substrate; a thickness of 0 or less; another standard
 */
export function crossCutSpacing(film: {
  thicknessUm: number;
  standard: CrossCutStandard;
  substrate?: "hard" | "soft";
}): Spacing {
  requireOneOf("standard", film.standard, crossCutStandards);
  requirePositive("thicknessUm", film.thicknessUm);
  if (film.standard === "ASTM D3359") {
    const { spacingMm, cuts } = d3359Spacings.find((row) => film.thicknessUm <= row.upToUm)!;
    return { spacingMm, cuts };
  }
  requireOneOf("substrate", film.substrate, ["hard", "soft"]);
  const row = iso2409Spacings.find((candidate) => film.thicknessUm <= candidate.upToUm);
  if (!row) throw new InputError("thicknessUm", film.thicknessUm, "a film of at most 250 µm for ISO 2409");
  return { spacingMm: film.substrate === "hard" ? row.hardMm : row.softMm, cuts: 6 };
}
