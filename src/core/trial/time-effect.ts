/** How many times later the first treatment rusts than the second. */
import { type TimeRatioModel, timeRatioModel } from "../statistics/weibull-time-ratios.ts";
import type { Effect } from "./finding.ts";
import type { Question } from "./question.ts";
import { inspectionInterval } from "./unit-scores.ts";
import type { Unit } from "./units-of-replication.ts";
import { isWearUnit } from "./wear-conditions.ts";

/** `pMin`: an interval by an exact test has at most the confidence 1 - pMin. */
export type Asked = { pMin: number; confidence: number };

/** One fit of all treatments; null: no finite shape, so that only the bounds of the looks are left. */
export function trialTimeModel(units: readonly Unit[]): TimeRatioModel | null {
  return timeRatioModel(
    units.flatMap((unit, at) =>
      unit.coupons.map((coupon) => ({
        ...inspectionInterval(coupon),
        treatment: unit.treatment,
        block: unit.block,
        unit: String(at),
      })),
    ),
  );
}

/** Ratio of times (days or strokes), first over second: from the fit, else the bounds of the looks. */
export function timeEffect(
  question: Question,
  model: TimeRatioModel | null,
  [first, second]: readonly [readonly Unit[], readonly Unit[]],
  { pMin, confidence }: Asked,
): Effect {
  const name = isWearUnit(question.unit) ? "stroke ratio" : "time ratio";
  if (model) return { name, ...model.ratio(first[0]!.treatment, second[0]!.treatment, confidence), confidence };
  return { name, value: null, ...looksBounds(first, second), confidence: Math.min(confidence, 1 - pMin) };
}

/**
 * What the looks alone say: at least the first group's smallest clean time over the second's latest rust, at most the reverse.
 * Both only when the groups do not overlap: at any smaller ratio the exact test would still see them wholly apart.
 */
export function looksBounds(
  first: readonly Unit[],
  second: readonly Unit[],
): { lower: number | null; upper: number | null } {
  const [one, other] = [endsOf(first), endsOf(second)];
  const lower = one.left > 0 && other.right !== null ? one.left / other.right : null;
  const upper = one.right !== null && other.left > 0 ? one.right / other.left : null;
  const apart = (lower !== null && lower > 1) || (upper !== null && upper < 1);
  return apart ? { lower, upper } : { lower: null, upper: null };
}

/** Smallest clean time and latest rust of a group; right null: one was never seen to rust. */
export function endsOf(units: readonly Unit[]): { left: number; right: number | null } {
  const times = units.flatMap((unit) => unit.coupons.map(inspectionInterval));
  const rights = times.map((time) => time.rightDays);
  return {
    left: Math.min(...times.map((time) => time.leftDays)),
    right: rights.includes(null) ? null : Math.max(...rights.filter((right) => right !== null)),
  };
}
