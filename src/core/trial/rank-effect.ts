/** How far two treatments are apart in classes or in rusted area, by ranks. */
import { cliffsDelta } from "../statistics/cliffs-delta.ts";
import { type BlockedValue, shiftWithLimits } from "../statistics/shift-by-ranks.ts";
import { wilsonLimits } from "../statistics/wilson-limits.ts";
import type { Effect } from "./finding.ts";
import type { Question } from "./question.ts";
import type { Asked } from "./time-effect.ts";
import { detectionLimitPercent, unitValue } from "./unit-scores.ts";
import type { Unit } from "./units-of-replication.ts";

/** A ratio of areas needs areas: at most this share of each group's units may be below what can be seen. */
const mostBelowLimit = 0.25;

type TwoGroups = readonly [readonly Unit[], readonly Unit[]];

/** Classes: above 0 the first is better. */
export function classShift(question: Question, [first, second]: TwoGroups, asked: Asked): Effect {
  const [one, other] = [first, second].map((units) => betterUpwards(question, units));
  const { alpha, confidence } = level(asked);
  return { name: "class shift", ...shiftWithLimits(one!, other!, alpha), confidence };
}

/** Values turned so that more is better. */
export function betterUpwards(question: Question, units: readonly Unit[]): BlockedValue[] {
  const turn = question.better === "higher" ? 1 : -1;
  return units.map((unit) => ({ value: turn * unitValue(question, unit), block: unit.block }));
}

/** Where an interval cannot reach 95 %, it has what the smallest p allows. */
function level({ pMin, confidence }: Asked): { alpha: number; confidence: number } {
  const reached = Math.min(confidence, 1 - pMin);
  return { alpha: 1 - reached, confidence: reached };
}

/** A ratio below 1: the first has less rust. Where too many coupons show none, Cliff's delta: above 0 the first is better. */
export function areaEffect(question: Question, groups: TwoGroups, asked: Asked): Effect {
  if (!groups.every((units) => showsAreas(question, units))) return delta(question, groups, asked.confidence);
  const [one, other] = groups.map((units) =>
    units.map((unit): BlockedValue => ({ value: unitValue(question, unit), block: unit.block })),
  );
  const { alpha, confidence } = level(asked);
  const { value, lower, upper } = shiftWithLimits(one!, other!, alpha);
  const ratio = (log: number | null) => (log === null ? null : 10 ** log);
  return { name: "area ratio", value: 10 ** value, lower: ratio(lower), upper: ratio(upper), confidence };
}

/** Whether a group has enough rust to be seen for a ratio of areas. */
export function showsAreas(question: Question, units: readonly Unit[]): boolean {
  const unseen = Math.log10(detectionLimitPercent(question) / 2);
  const below = units.filter((unit) => unitValue(question, unit) <= unseen + 1e-9).length;
  return below <= mostBelowLimit * units.length;
}

/** P(first better) - P(first worse); limits by Wilson's formula for the smaller group, which errs on the wide side. */
function delta(question: Question, groups: TwoGroups, confidence: number): Effect {
  const [first, second] = groups.map((units) => betterUpwards(question, units).map((one) => one.value));
  const { delta, superiority } = cliffsDelta({ first: first!, second: second! });
  const trials = Math.min(first!.length, second!.length);
  const { lower, upper } = wilsonLimits(superiority, trials, confidence);
  return { name: "Cliff's delta", value: delta, lower: 2 * lower - 1, upper: 2 * upper - 1, confidence };
}
