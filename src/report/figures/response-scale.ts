/** The axis that a response's data lie on, shared by every row of one question so that rows compare by eye. */
import { ticks as evenTicks } from "d3-array";
import type { CouponPoint, ResponseKind } from "../../core/trial/finding.ts";
import { valueText } from "./number-text.ts";

export type Tick = { at: number; label: string };
export type Scale = {
  /** Place of a value: 0 at the left end, 1 at the right end. */
  place: (value: number) => number;
  ticks: Tick[];
};

/**
 * Zero has a place on the percent axis: linear below this percent, logarithmic above.
 * It is the usual threshold of first rust, below which photographs tell nothing apart.
 */
const linearBelowPercent = 0.01;
const percentTicks = [0, 0.01, 0.1, 1, 10, 100];

export function percentScale(greatest: number): Scale {
  const end = percentTicks.find((tick) => tick >= Math.max(1, greatest)) ?? 100;
  const height = (percent: number) => Math.log10(1 + percent / linearBelowPercent);
  return {
    place: (percent) => height(percent) / height(end),
    ticks: percentTicks.filter((tick) => tick <= end).map((at) => ({ at, label: String(at) })),
  };
}

/** From zero to the last look, which has a tick of its own. */
export function timeScale(last: number): Scale {
  const end = last > 0 ? last : 1;
  const at = [...new Set([...evenTicks(0, end, 6), end])];
  return { place: (value) => value / end, ticks: at.map((one) => ({ at: one, label: valueText(one) })) };
}

/** One slot per class, the better end to the right. */
export function classScale(scale: { best: number; worst: number }): Scale {
  const low = Math.min(scale.best, scale.worst);
  const count = Math.abs(scale.best - scale.worst) + 1;
  const slot = (value: number) => (value - low + 0.5) / count;
  return {
    place: (value) => (scale.best >= scale.worst ? slot(value) : 1 - slot(value)),
    ticks: Array.from({ length: count }, (_, step) => ({ at: low + step, label: valueText(low + step) })),
  };
}

/** Measured values: a little air on both sides, zero only where the data reach it. */
export function valueScale(values: readonly number[]): Scale {
  const low = values.length > 0 ? Math.min(...values) : 0;
  const high = values.length > 0 ? Math.max(...values) : 1;
  const air = high > low ? (high - low) * 0.06 : Math.abs(high) * 0.1 || 1;
  const from = low - air;
  const width = high - low + 2 * air;
  return {
    place: (value) => (value - from) / width,
    ticks: evenTicks(from, from + width, 5).map((at) => ({ at, label: valueText(at) })),
  };
}

/** The scale for what a question's coupons showed; `classes` where a scale of classes is known. */
export function responseScale(
  kind: ResponseKind,
  points: readonly CouponPoint[],
  classes: { best: number; worst: number } | null,
): Scale {
  const reached = points.flatMap(({ datum }) => ("value" in datum ? [datum.value] : [datum.left, datum.right ?? 0]));
  const greatest = Math.max(0, ...reached);
  switch (kind) {
    case "time":
      return timeScale(greatest);
    case "area":
      return percentScale(greatest);
    case "binary":
      return {
        ...classScale({ best: 1, worst: 0 }),
        ticks: [
          { at: 0, label: "no" },
          { at: 1, label: "yes" },
        ],
      };
    case "ordinal":
      return classScale(classes ?? { best: greatest, worst: Math.min(greatest, ...reached) });
    case "continuous":
      return valueScale(reached);
  }
}
