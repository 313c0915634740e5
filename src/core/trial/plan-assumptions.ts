/** What is taken for granted when a plan is simulated. */
import { assumedScatter } from "./assumed-scatter.ts";
import type { DeclaredQuestion } from "./declared-question.ts";

/** How the finishes stand to the control; without a control, to the others. */
export const betterOnes = ["one", "all"] as const;
export type BetterOnes = (typeof betterOnes)[number];

export type PlanAssumptions = {
  /** What half of the control does, or of the first in a declared order: median days or strokes, median area in %, class, value. It has no default. */
  control: number;
  /** Weibull shape of the times. */
  shape: number;
  strokesLogSd: number;
  areaLog10Sd: number;
  classSd: number;
  /** Of measured values, as a share of the control's; of ratios, on the logarithm. */
  coefficientOfVariation: number;
  /** Of finish colours, in their own unit (L* or CIEDE2000), in place of a share: the scatter of a dark finish is not smaller. */
  colourSd?: number;
  /** Log SD between blocks and between goes that coupons share; other responses get the same share of their own scatter. */
  blockLogSd: number;
  batchLogSd: number;
  lostShare: number;
};

/** What is assumed where no former trial says better, for a control that the user expects to do so. */
export function planAssumptions(control: number, declared?: DeclaredQuestion): PlanAssumptions {
  const { colourSd, ...scatter } = assumedScatter;
  return { control, ...scatter, ...(declared && asksColour(declared) ? { colourSd } : {}) };
}

/** Made of finish colours, and compared as a difference. */
export const asksColour = (declared: DeclaredQuestion): boolean =>
  declared.response === "value" && declared.seen !== undefined && !declared.ratio;
