/**
 * The innermost intervals of a set of inspection intervals: the only places where the likelihood can use mass.
 *
 * Units    days
 * Source   Turnbull 1976; Peto 1973
 * Status   memory
 */
import type { InspectionInterval } from "./inspection-interval.ts";

/** The cells `first` to `last`, both included. */
export type Span = { first: number; last: number };
/** One span and the number of coupons that have it. */
export type CountedSpan = Span & { count: number };

// Order of ends at one time. A right end stands before the left end of a half-open interval: (7, 14] and (14, 21] do not overlap,
// and a coupon taken away at 14 was at risk for a failure at exactly 14.
const exactLeft = 0;
const right = 1;
const openLeft = 2;
type End = { days: number; kind: number };

/**
 * Cells in ascending order, the cells inside each different observation, which of these each observation is, and the spans with equal
 * ones counted together.
 */
export function innermostCells(observations: readonly InspectionInterval[]) {
  const { different, which, times } = differentIntervals(observations);
  const ends: End[] = [];
  for (const { leftDays, rightDays } of different) {
    ends.push(leftEnd(leftDays, rightDays), rightEnd(rightDays));
  }
  ends.sort(byTime);
  const cells: InspectionInterval[] = [];
  const cellEnds: { left: End; right: End }[] = [];
  for (let at = 0; at + 1 < ends.length; at++) {
    const here = ends[at]!;
    const next = ends[at + 1]!;
    if (here.kind === right || next.kind !== right) continue;
    cellEnds.push({ left: here, right: next });
    cells.push({ leftDays: here.days, rightDays: next.days === Number.POSITIVE_INFINITY ? null : next.days });
  }
  const spans = different.map((one) => spanOf(one, cellEnds));
  return { cells, spans, which, distinct: counted(spans, times) };
}

/** On a common calendar many coupons have the same interval, and its ends need sorting only once. `which`: of each observation. */
function differentIntervals(observations: readonly InspectionInterval[]) {
  const different: InspectionInterval[] = [];
  const times: number[] = [];
  const which = observations.map((one) => {
    for (let at = 0; at < different.length; at++) {
      const { leftDays, rightDays } = different[at]!;
      if (leftDays !== one.leftDays || rightDays !== one.rightDays) continue;
      times[at]!++;
      return at;
    }
    times.push(1);
    return different.push(one) - 1;
  });
  return { different, which, times };
}

function leftEnd(leftDays: number, rightDays: number | null): End {
  return { days: leftDays, kind: leftDays === rightDays ? exactLeft : openLeft };
}

function rightEnd(rightDays: number | null): End {
  return { days: rightDays ?? Number.POSITIVE_INFINITY, kind: right };
}

function byTime(a: End, b: End): number {
  // Infinity less Infinity is not a number, so equal times are asked first.
  return a.days === b.days ? a.kind - b.kind : a.days - b.days;
}

/** No end lies strictly inside a cell, so a cell is wholly inside an observation or wholly outside. */
function spanOf({ leftDays, rightDays }: InspectionInterval, cellEnds: { left: End; right: End }[]): Span {
  const left = leftEnd(leftDays, rightDays);
  const right = rightEnd(rightDays);
  let first = 0;
  while (byTime(cellEnds[first]!.left, left) < 0) first++;
  let last = cellEnds.length - 1;
  while (byTime(cellEnds[last]!.right, right) > 0) last--;
  return { first, last };
}

function counted(spans: readonly Span[], times: readonly number[]): CountedSpan[] {
  const distinct: CountedSpan[] = [];
  for (const [one, { first, last }] of spans.entries()) {
    const known = distinct.find((other) => other.first === first && other.last === last);
    if (known) known.count += times[one]!;
    else distinct.push({ first, last, count: times[one]! });
  }
  return distinct;
}
