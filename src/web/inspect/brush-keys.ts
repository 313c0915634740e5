/** The brush without a pointer: arrow keys move a ring over the coupon, in mm. */
import type { PointMm } from "./brush.ts";

const arrows: Record<string, PointMm> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Half a brush at a time, so that dabs side by side leave no gap; with shift two brushes. Null: not an arrow key. */
export function ringMoved(
  [x, y]: PointMm,
  { key, shiftKey }: { key: string; shiftKey: boolean },
  { size, widthMm }: { size: { lengthMm: number; widthMm: number }; widthMm: number },
): PointMm | null {
  const arrow = arrows[key];
  if (!arrow) return null;
  const stepMm = widthMm * (shiftKey ? 2 : 0.5);
  const inside = (mm: number, wholeMm: number) => Math.round(Math.min(wholeMm, Math.max(0, mm)) * 100) / 100;
  return [inside(x + arrow[0] * stepMm, size.lengthMm), inside(y + arrow[1] * stepMm, size.widthMm)];
}

/** The next wider or narrower brush of those offered; the last one stays. */
export function brushAfter(widths: readonly number[], widthMm: number, key: string): number {
  if (key === "+" || key === "=") return widths.find((one) => one > widthMm) ?? widthMm;
  return key === "-" ? (widths.findLast((one) => one < widthMm) ?? widthMm) : widthMm;
}
