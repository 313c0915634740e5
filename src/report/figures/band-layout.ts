/** Where each coupon's mark and number go in one band of the coupon axis. Lengths in px of the drawing. */
import type { CouponPoint } from "../../core/trial/finding.ts";
import { packLanes } from "./lanes.ts";
import type { Scale } from "./response-scale.ts";

export type CouponMark = {
  point: CouponPoint;
  label: string;
  lane: number;
  /** The line of an interval (equal ends: a dot), or the middle of a numbered mark. */
  from: number;
  to: number;
  /** Not yet: the line leaves by an arrow. */
  open: boolean;
  /** Start of the number beside an interval; the middle of a numbered mark. */
  labelAt: number;
  width: number;
};
export type Band = { marks: CouponMark[]; lanes: number; laneHeight: number; height: number };

export const arrowPx = 12;
const letterPx = 7;
const gapPx = 4;

/** A coupon touched by a deviation carries a star, explained under the figure. */
export const couponLabel = (point: CouponPoint) => (point.deviation === null ? point.coupon : `${point.coupon}*`);
export const labelWidthPx = (label: string) => label.length * letterPx;

export function bandLayout(points: readonly CouponPoint[], scale: Scale, plotPx: number): Band {
  const inOrder = [...points].sort((a, b) => a.coupon.localeCompare(b.coupon, "en", { numeric: true }));
  // One width for all, or ties would be stacked by the length of their numbers.
  const widest = Math.max(0, ...points.map((point) => labelWidthPx(couponLabel(point))));
  const unplaced = inOrder.map((point) => markOf(point, scale, { plotPx, widest }));
  const lanes = packLanes(
    unplaced.map((mark) => spanOf(mark)),
    gapPx,
  );
  const marks = unplaced.map((mark, index) => ({ ...mark, lane: lanes[index]! }));
  const count = Math.max(0, ...lanes.map((lane) => lane + 1));
  // Many coupons at one value would make a tower; closer lanes keep it on the page and still legible.
  const laneHeight = count > 8 ? 14 : 17;
  return { marks, lanes: count, laneHeight, height: Math.max(1, count) * laneHeight };
}

function markOf(
  point: CouponPoint,
  scale: Scale,
  { plotPx, widest }: { plotPx: number; widest: number },
): Omit<CouponMark, "lane"> {
  const label = couponLabel(point);
  if ("value" in point.datum) {
    const middle = scale.place(point.datum.value) * plotPx;
    return { point, label, from: middle, to: middle, open: false, labelAt: middle, width: Math.max(17, widest + 7) };
  }
  const from = scale.place(point.datum.left) * plotPx;
  const open = point.datum.right === null;
  const to = point.datum.right === null ? plotPx + arrowPx : scale.place(point.datum.right) * plotPx;
  return { point, label, from, to, open, labelAt: to + 4, width: labelWidthPx(label) };
}

function spanOf(mark: Omit<CouponMark, "lane">) {
  if ("value" in mark.point.datum) return { from: mark.from - mark.width / 2, to: mark.from + mark.width / 2 };
  return { from: mark.from, to: mark.labelAt + mark.width };
}

/** A treatment's name in at most `lines` lines; what does not fit ends in an ellipsis. */
export function nameLines(name: string, letters: number, lines: number): string[] {
  const rows: string[] = [];
  let rest = name.trim();
  while (rest.length > 0 && rows.length < lines) {
    if (rest.length <= letters) {
      rows.push(rest);
      return rows;
    }
    const space = rest.lastIndexOf(" ", letters);
    const cut = space > letters / 3 ? space : letters;
    rows.push(rest.slice(0, cut).trim());
    rest = rest.slice(cut).trim();
  }
  if (rest.length > 0) rows[rows.length - 1] = `${rows.at(-1)!.slice(0, letters - 1)}…`;
  return rows;
}

/** Where a label that wants to stand over `middlePx` has its middle, so that neither end leaves the drawing. */
export function centredWithin(middlePx: number, labelPx: number, widthPx: number): number {
  const half = Math.min(labelPx, widthPx) / 2;
  return Math.min(Math.max(middlePx, half), widthPx - half);
}
