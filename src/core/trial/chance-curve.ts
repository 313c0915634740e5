/** The order in which the points of a curve of chances are simulated: where the handle stands first, then all of them evenly. */

import type { BetterOnes } from "./plan-assumptions.ts";
import { partTrials } from "./simulate-in-parts.ts";

/** Coupons of each at which a curve is simulated; the handle may stand between them. */
export const curvePoints = [2, 3, 4, 5, 6, 8, 10, 12, 16] as const;
export const mostCoupons = 16;
/** While a plan is dragged: an error of at most 2.5 points. On paper: 1.1. */
export const draggedTrials = 400;
export const printedTrials = 2000;

/** "daily": one better, seen every day: what the planned looks cost. */
export type ChanceLine = BetterOnes | "daily";
export type ChancePart = { each: number; line: ChanceLine; from: number; to: number };

export type CurveAsked = {
  handle: number;
  lines: readonly BetterOnes[];
  points: readonly number[];
  /** Of each point. */
  trials: number;
  /** Also what daily looks would show where the handle stands. */
  daily: boolean;
};

/** The next part to hand out, or null when every point has its trials. `claimed`: trials of a point that were handed out already. */
export function nextChancePart(
  { handle, lines, points, trials, daily }: CurveAsked,
  claimed: (each: number, line: ChanceLine) => number,
): ChancePart | null {
  const wanted: { each: number; line: ChanceLine }[] = lines.map((line) => ({ each: handle, line }));
  const others = points
    .filter((each) => each !== handle)
    .flatMap((each) => lines.map((line) => ({ each, line: line as ChanceLine })));
  for (const group of [wanted, daily ? [{ each: handle, line: "daily" as const }] : [], others]) {
    const open = group.filter(({ each, line }) => claimed(each, line) < trials);
    const least = Math.min(...open.map(({ each, line }) => claimed(each, line)));
    const next = open.find(({ each, line }) => claimed(each, line) === least);
    if (next) return { ...next, from: least, to: Math.min(trials, least + partTrials) };
  }
  return null;
}
