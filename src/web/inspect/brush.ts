/** Strokes of the brush, in mm on the rectified coupon. */
import type { BrushStroke } from "../../api/photo.ts";

export type PointMm = BrushStroke["pointsMm"][number];

/** The most points a stroke may hold; a longer one goes on as a new stroke. */
export const strokePointsLimit = 5000;

/** A finger trembles: points nearer than a sixth of the brush to the last one add nothing. */
export function isFarEnough(points: readonly PointMm[], [x, y]: PointMm, widthMm: number): boolean {
  const last = points.at(-1);
  return last === undefined || Math.hypot(x - last[0], y - last[1]) >= widthMm / 6;
}

/** The stroke as an SVG path; a single touch is a dot. */
export function strokePath(points: readonly PointMm[]): string {
  const [first, ...rest] = points;
  if (!first) return "";
  const start = `M${first[0]} ${first[1]}`;
  return rest.length === 0 ? `${start}l0 0` : `${start}${rest.map(([x, y]) => `L${x} ${y}`).join("")}`;
}

/** From a place on the screen to mm on the coupon, a hundredth of a mm being more than a finger can do. */
export function toMm(
  at: { clientX: number; clientY: number },
  drawn: { left: number; top: number; width: number; height: number },
  size: { lengthMm: number; widthMm: number },
): PointMm {
  const mm = (share: number, whole: number) => Math.round(share * whole * 100) / 100;
  return [
    mm((at.clientX - drawn.left) / drawn.width, size.lengthMm),
    mm((at.clientY - drawn.top) / drawn.height, size.widthMm),
  ];
}
