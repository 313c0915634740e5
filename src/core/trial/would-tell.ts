/**
 * How many units of each treatment the next trial needs to find a difference of the size of the margin. A formula, right when this
 * pair alone differs; more when the others are better too, which a simulation answers.
 */
import { chi2Quantile } from "../numeric/chi2-distribution.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";
import { mean } from "../statistics/moments.ts";
import type { Compared } from "./analysis.ts";
import { assumedScatter } from "./assumed-scatter.ts";
import { errorDfFor } from "./comparable-treatments.ts";
import type { Finding } from "./finding.ts";
import type { Fitted } from "./fitted-models.ts";
import type { Question } from "./question.ts";
import { comparesRatios, scaledMargin } from "./scaled-margin.ts";
import { colourUnits } from "./seen-as.ts";
import { unitValue } from "./unit-scores.ts";
import { isWearUnit } from "./wear-conditions.ts";

export const askedPowers = [0.8, 0.9] as const;
/** Beyond so many of each the margin is out of reach. */
export const mostUnits = 30;
/** Fewer of each can show nothing, however large the difference: exact tests need four, measured values three. */
export const leastUnits = { exact: 4, continuous: 3 } as const;

/** The size to find where the user stated none. */
const assumedMargin = { factor: 2, classes: 1, relative: 0.1, colour: 2 } as const;

/** null: there is no formula for yes and no. */
export function wouldTell(question: Question, fitted: Fitted, row: Compared): Finding["wouldTell"] {
  const size = sizeToFind(question, fitted.units);
  const sigma = trialScatter(question, fitted);
  if (size === null || sigma === null) return null;
  const level = normalQuantile(1 - 0.05 / (2 * comparisonsDeclared(question, row)));
  const least = question.kind === "continuous" ? leastUnits.continuous : leastUnits.exact;
  return askedPowers.map((power) => {
    const perTreatment = Math.ceil(2 * ((level + normalQuantile(power)) * (sigma / size)) ** 2 - 1e-9);
    return { power, perTreatment: perTreatment > mostUnits ? null : Math.max(least, perTreatment) };
  });
}

/** Before any was taken out: each with the control, or all pairs; in the second step the pairs among the others. */
export function comparisonsDeclared({ family, treatments }: Question, { step }: Pick<Compared, "step">): number {
  const k = treatments.length;
  if (step === "second step") return ((k - 1) * (k - 2)) / 2;
  return family === "control" ? k - 1 : (k * (k - 1)) / 2;
}

type Units = Fitted["units"];

/** By its unit, or by the name that a table gave it. */
function isColour({ response, unit }: Question): boolean {
  return Object.values(colourUnits).includes(unit) || /\bL\*|colou?r/i.test(response);
}

/** The margin on the scale of the scatter, of areas its natural logarithm; the effect that was seen is never asked for. */
export function sizeToFind(question: Question, units: Units): number | null {
  const stated = scaledMargin(question);
  if (question.kind === "area") return Math.log(question.margin ?? assumedMargin.factor);
  if (stated !== null) return stated;
  switch (question.kind) {
    case "time":
      return Math.log(assumedMargin.factor);
    case "ordinal":
      return assumedMargin.classes;
    case "continuous":
      if (question.ratio) return Math.log1p(assumedMargin.relative);
      return isColour(question) ? assumedMargin.colour : assumedMargin.relative * typicalValue(question, units);
    case "binary":
      return null;
  }
}

/** The size to find in the user's words. */
export function sizeWords(question: Question): string {
  const { kind, margin, unit } = question;
  if (comparesRatios(question)) {
    const factor = margin ?? (kind === "continuous" ? 1 + assumedMargin.relative : assumedMargin.factor);
    return `a factor of ${factor}`;
  }
  if (kind === "ordinal") {
    const classes = margin ?? assumedMargin.classes;
    return classes === 1 ? "a difference of 1 class" : `a difference of ${classes} classes`;
  }
  if (margin !== null) return `a difference of ${margin} ${unit}`.trim();
  return isColour(question) ? `a difference of ${assumedMargin.colour} ${unit}`.trim() : "a difference of 10 %";
}

function typicalValue(question: Question, units: Units): number {
  return Math.abs(mean(units.map((unit) => unitValue(question, unit))));
}

/** Upper 70 % limit of this trial's scatter; with few degrees of freedom the assumed one, if that is larger. */
export function trialScatter(question: Question, { time, units }: Fitted): number | null {
  switch (question.kind) {
    case "time": {
      const assumed = isWearUnit(question.unit) ? assumedScatter.strokesLogSd : 1.05 / assumedScatter.shape;
      return cautious(assumed, time && { sigma: 1.05 / time.cautiousShape(), df: time.df });
    }
    case "area":
      return Math.LN10 * assumedScatter.areaLog10Sd;
    case "ordinal":
      return cautious(assumedScatter.classSd, pooledScatter(question, units));
    case "continuous": {
      const assumed = question.ratio
        ? assumedScatter.coefficientOfVariation
        : isColour(question)
          ? assumedScatter.colourSd
          : assumedScatter.coefficientOfVariation * typicalValue(question, units);
      return cautious(assumed, pooledScatter(question, units));
    }
    case "binary":
      return null;
  }
}

function cautious(assumed: number, seen: { sigma: number; df: number } | null): number {
  if (seen === null) return assumed;
  return seen.df < errorDfFor.shown ? Math.max(seen.sigma, assumed) : seen.sigma;
}

/** SD within treatments, at its upper 70 % limit; null: no treatment was repeated, or nothing scattered. */
function pooledScatter(question: Question, units: Units): { sigma: number; df: number } | null {
  let [squares, df] = [0, 0];
  for (const treatment of new Set(units.map((unit) => unit.treatment))) {
    const values = units.filter((unit) => unit.treatment === treatment).map((unit) => unitValue(question, unit));
    const middle = mean(values);
    squares += values.reduce((sum, value) => sum + (value - middle) ** 2, 0);
    df += values.length - 1;
  }
  return df === 0 || squares === 0 ? null : { sigma: Math.sqrt(squares / chi2Quantile(0.3, df)), df };
}
