/**
 * How far an inspector's readings of rusted area agree with the true areas, in figures and in plain words.
 *
 * Units    % of the plate, or D610 grades; a factor is read / true
 * Source   quadratic kappa of the grades (Cohen 1968); limits of agreement (Bland and Altman 1999) of the logarithms of
 *          area, or of the grades; split at 1 % because the eye errs otherwise on specks than on patches
 * Status   computed; the split is our own
 */
import { InputError, requireList, requirePercent } from "../input-error.ts";
import { blandAltman } from "../statistics/bland-altman.ts";
import { type Kappa, weightedKappa } from "../statistics/kappa.ts";
import { d610Grade, d610Limits } from "./d610-grade.ts";

export const readingWays = ["percent", "grade"] as const;
/** What the inspector gives: a percent, or a D610 grade. */
export type ReadingWay = (typeof readingWays)[number];
export type EyeReading = { truePercent: number; read: number };
export type EyeReadings = { way: ReadingWay; readings: readonly EyeReading[] };

/** A lean and how far single readings lie about it: factors for percents, grades (read less true) for grades. */
export type Lean = { plates: number; lean: number; from: number; to: number; lowest: number; highest: number };
export type EyeAgreement = {
  plates: number;
  sameGrade: number;
  withinOneGrade: number;
  /** null: fewer than ten readings, or all readings and all plates are of one grade. */
  kappa: Kappa | null;
  /** null: fewer than two plates of that size. */
  all: Lean | null;
  small: Lean | null;
  large: Lean | null;
};

/** Fewer readings have no kappa: one slip would sway it, and its limits, which hold for many, would be far too narrow (±0 at full agreement). */
export const fewestForKappa = 10;
/** Up to this area a plate counts as small. */
export const smallUpToPercent = 1;
/** A plate read as clean: half of the least limit stands for it, as a logarithm needs something. */
const cleanPercent = d610Limits[0].upToPercent / 2;

/** Refuses readings that are no percent from 0 to 100, or no grade from 0 to 10. */
export function eyeAgreement({ way, readings }: EyeReadings): EyeAgreement {
  requireEyeReadings({ way, readings });
  const pairs = readings.map(({ truePercent, read }) => ({
    trueGrade: d610Grade(truePercent),
    readGrade: way === "grade" ? read : d610Grade(read),
  }));
  const near = (atMost: number) => pairs.filter((one) => Math.abs(one.trueGrade - one.readGrade) <= atMost).length;
  const small = readings.filter(({ truePercent }) => truePercent <= smallUpToPercent);
  const large = readings.filter(({ truePercent }) => truePercent > smallUpToPercent);
  const [leanOfAll, leanOfSmall, leanOfLarge] = [readings, small, large].map((part) => leanOf(way, part));
  return {
    ...{ plates: readings.length, sameGrade: near(0), withinOneGrade: near(1), kappa: gradesKappa(pairs) },
    ...{ all: leanOfAll!, small: leanOfSmall!, large: leanOfLarge! },
  };
}

/** Refuses an empty list, and a reading that is no percent or no D610 grade. */
export function requireEyeReadings({ way, readings }: EyeReadings): void {
  requireList("readings", readings);
  for (const [at, { truePercent, read }] of readings.entries()) {
    requirePercent(`readings[${at}].truePercent`, truePercent);
    if (way === "percent") requirePercent(`readings[${at}].read`, read);
    else if (!d610Limits.some(({ grade }) => grade === read))
      throw new InputError(`readings[${at}].read`, read, "a D610 grade from 0 to 10");
  }
}

function gradesKappa(pairs: readonly { trueGrade: number; readGrade: number }[]): Kappa | null {
  if (pairs.length < fewestForKappa) return null;
  const first = pairs[0]!.trueGrade;
  if (pairs.every((one) => one.trueGrade === first && one.readGrade === first)) return null;
  const grades = d610Limits.map(({ grade }) => grade);
  const table = grades.map((row) =>
    grades.map((column) => pairs.filter((one) => one.trueGrade === row && one.readGrade === column).length),
  );
  return weightedKappa({ table, confidence: 0.95, weights: "quadratic" });
}

function leanOf(way: ReadingWay, readings: readonly EyeReading[]): Lean | null {
  if (readings.length < 2) return null;
  const scaled = (percent: number) => Math.log(Math.max(percent, cleanPercent));
  const found = blandAltman({
    a: readings.map(({ read }) => (way === "grade" ? read : scaled(read))),
    b: readings.map(({ truePercent }) => (way === "grade" ? d610Grade(truePercent) : scaled(truePercent))),
    confidence: 0.95,
  });
  const back = way === "grade" ? (value: number) => value : Math.exp;
  return {
    plates: readings.length,
    ...{ lean: back(found.bias), from: back(found.biasLower), to: back(found.biasUpper) },
    ...{ lowest: back(found.lowerLimit), highest: back(found.upperLimit) },
  };
}
