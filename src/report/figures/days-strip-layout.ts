/** Where days, looks and first rusts lie on the strip of days outdoors. Days from the start; lengths in px. */
import { labelWidthPx } from "./band-layout.ts";
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

/** Room right of the strip's last day, for numbers that stand beyond it. */
export const rightPx = 40;
/** Nobody counts through more numbers than this beside one mark; the rest get a mark of their own below. */
const numbersAtOnce = 9;
const gapPx = 3;

/**
 * First rusts as intervals, coupons of the same interval together, in lanes so that none hides another; coupons that have
 * not rusted yet are left out.
 */
export function rustLanes(spans: readonly FirstRustSpan[], days: number, plotPx: number) {
  const x = (day: number) => (day / Math.max(days, 1)) * plotPx;
  const placed = sameSpans(spans).flatMap(({ left, right, coupons }) => {
    const from = x(left);
    const to = Math.max(x(right), from + 3);
    const roomPx = { before: from - gapPx, after: plotPx + rightPx - to - gapPx };
    return inRoom(coupons, Math.max(roomPx.before, roomPx.after)).map((own) => {
      const label = own.join(", ");
      const width = labelWidthPx(label);
      // Near the end of the strip the numbers stand before their mark.
      const labelAt = width > roomPx.after && width <= roomPx.before ? from - gapPx - width : to + gapPx;
      const span = { from: Math.min(from, labelAt), to: Math.max(to, labelAt + width) };
      return { left, right, coupons: own, label, from, to, labelAt, span };
    });
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
  return [...groups.values()].sort((a, b) => a.right - b.right || a.left - b.left);
}

/** As many numbers at a time as have room beside a mark, at least one. */
function inRoom(coupons: readonly string[], roomPx: number): string[][] {
  const parts: string[][] = [];
  for (const coupon of coupons) {
    const part = parts.at(-1);
    const fits = part && part.length < numbersAtOnce && labelWidthPx([...part, coupon].join(", ")) <= roomPx;
    if (fits) part.push(coupon);
    else parts.push([coupon]);
  }
  return parts;
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
