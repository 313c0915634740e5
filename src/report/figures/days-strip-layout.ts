/** Where days, looks and first rusts lie on the strip of days outdoors. Days from the start; lengths in px. */
import { packLanes } from "./lanes.ts";

export type FirstRustSpan = { coupon: string; left: number; right: number | null };

/** Days at which the axis is numbered: weeks, fortnights or months, whichever leaves the numbers room. */
export function dayTicks(days: number, plotPx: number): number[] {
  const roomPx = 34;
  const step =
    [1, 2, 7, 14, 28, 56, 91, 182, 364, 728].find((one) => (one / Math.max(days, 1)) * plotPx >= roomPx) ?? 1456;
  const ticks: number[] = [];
  for (let day = 0; day <= days; day += step) ticks.push(day);
  return ticks;
}

/** Ticks of looks: what was looked at on a day, and planned days that nobody looked at yet. */
export function lookTicks(looks: readonly { day: number }[], planned: readonly number[]) {
  const counts = new Map<number, number>();
  for (const look of looks) counts.set(look.day, (counts.get(look.day) ?? 0) + 1);
  const done = [...counts].map(([day, coupons]) => ({ day, coupons })).sort((a, b) => a.day - b.day);
  return { done, ahead: planned.filter((day) => !counts.has(day)).sort((a, b) => a - b) };
}

/** More numbers than this beside one mark would run off the strip; the rest get a mark of their own below. */
const numbersAtOnce = 9;
const letterPx = 6.4;

/**
 * First rusts as intervals, coupons of the same interval together, in lanes so that none hides another; coupons that have
 * not rusted yet are left out.
 */
export function rustLanes(spans: readonly FirstRustSpan[], days: number, plotPx: number) {
  const x = (day: number) => (day / Math.max(days, 1)) * plotPx;
  const placed = sameSpans(spans).map(({ left, right, coupons }) => {
    const from = x(left);
    const to = Math.max(x(right), from + 3);
    const label = coupons.join(", ");
    const width = label.length * letterPx;
    // Near the end of the strip the numbers stand before their mark.
    const before = to + 3 + width > plotPx + 30;
    const labelAt = before ? from - 3 - width : to + 3;
    return {
      left,
      right,
      coupons,
      label,
      from,
      to,
      labelAt,
      span: { from: Math.min(from, labelAt), to: Math.max(to, labelAt + width) },
    };
  });
  const lanes = packLanes(
    placed.map((one) => one.span),
    6,
  );
  return placed.map((one, at) => ({ ...one, lane: lanes[at]! }));
}

function sameSpans(spans: readonly FirstRustSpan[]) {
  const groups = new Map<string, { left: number; right: number; coupons: string[] }>();
  for (const { coupon, left, right } of spans) {
    if (right === null) continue;
    const key = `${left} ${right}`;
    const group = groups.get(key) ?? { left, right, coupons: [] };
    group.coupons.push(coupon);
    groups.set(key, group);
  }
  return [...groups.values()]
    .sort((a, b) => a.right - b.right || a.left - b.left)
    .flatMap((group) =>
      Array.from({ length: Math.ceil(group.coupons.length / numbersAtOnce) }, (_, at) => ({
        ...group,
        coupons: group.coupons.slice(at * numbersAtOnce, (at + 1) * numbersAtOnce),
      })),
    );
}

/** Where the bars of a day stand in a band of this height: wet hours from the ground up, unknown ones from the top down. */
export function dayBars(
  { hours, wetHours, unknownHours }: { hours: number; wetHours: number; unknownHours: number },
  bandPx: number,
): { wetPx: number; unknownPx: number } {
  // A day that is still running, or that the clocks made shorter, is measured by what it had.
  const ofDay = (part: number) => (hours > 0 ? (part / hours) * bandPx : 0);
  return { wetPx: ofDay(wetHours), unknownPx: ofDay(unknownHours) };
}
