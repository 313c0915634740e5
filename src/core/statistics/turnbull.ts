/** Survival from looks that are days apart: how much of the rust started between which two looks. */
import { requireList, requireNotNegative } from "../input-error.ts";
import { type InspectionInterval, requireIntervals } from "./inspection-interval.ts";
import { innermostCells, type Span } from "./turnbull-cells.ts";
import { maximalMasses } from "./turnbull-masses.ts";

/** A stretch of time and the share of coupons that rusted in it; where inside it, nobody knows. `rightDays` null: after the last look. */
export type SupportCell = InspectionInterval & { mass: number };

export type TurnbullEstimate = {
  /** Every innermost interval in ascending order, those without mass included. The masses add up to 1. */
  cells: readonly SupportCell[];
  /** The cells that lie inside each different observation; `which` of these each observation is, in the order given. */
  spans: readonly Span[];
  which: readonly number[];
  logLikelihood: number;
};

/** Least mass of a cell that is listed as support. */
const listedMass = 1e-9;

/**
 * Share still free of rust over time, from inspection intervals (Turnbull's estimate).
 *
 * Method   survival.turnbull
 * Formula  the masses p of the innermost intervals that maximise the sum over coupons of ln(mass inside the coupon's interval);
 *          at the maximum the sum over coupons of inside / mass is n in each cell with mass and at most n in the others
 * Units    days in, shares 0 to 1 out; survivalUpper counts a cell's mass at its right end, survivalLower just after its left end
 * Source   Turnbull 1976; Peto 1973; Gentleman and Geyer 1994
 * Status   computed
 * Holds    when the days of the looks do not depend on how the coupon was doing
 * Refuses  no observations, ends in the wrong order, an exact time of 0
 */
export function turnbull({ observations, atDays }: { observations: InspectionInterval[]; atDays: number[] }) {
  requireIntervals("observations", observations);
  requireList("atDays", atDays);
  for (const [at, days] of atDays.entries()) requireNotNegative(`atDays[${at}]`, days);
  const { cells, logLikelihood } = turnbullEstimate(observations);
  return {
    support: cells.filter((cell) => cell.mass > listedMass),
    survivalUpper: atDays.map((days) => massOf(cells, (cell) => (cell.rightDays ?? Number.POSITIVE_INFINITY) > days)),
    // Inside a cell the rust may have started at once: after the last look of a clean coupon the lower value falls to 0.
    survivalLower: atDays.map((days) =>
      massOf(cells, (cell) => (cell.rightDays ?? Number.POSITIVE_INFINITY) > days && cell.leftDays >= days),
    ),
    logLikelihood,
  };
}

function massOf(cells: readonly SupportCell[], counts: (cell: SupportCell) => boolean): number {
  return cells.reduce((sum, cell) => (counts(cell) ? sum + cell.mass : sum), 0);
}

/** The estimate itself, for scores and plots; observations must be checked (`requireIntervals`). */
export function turnbullEstimate(observations: readonly InspectionInterval[]): TurnbullEstimate {
  const { cells, spans, which, distinct } = innermostCells(observations);
  const { masses, logLikelihood } = maximalMasses(distinct, cells.length);
  const withMass = cells.map(({ leftDays, rightDays }, at) => ({ leftDays, rightDays, mass: masses[at]! }));
  return { cells: withMass, spans, which, logLikelihood };
}
