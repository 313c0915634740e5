/** The four corners of a coupon in its photograph: where they start, how they turn, what makes them unusable. */
import type { MeasurementRequest } from "../../api/photo.ts";

export type Corners = NonNullable<MeasurementRequest["cornersPx"]>;
export type Point = Corners[number];
export type PictureSize = { widthPx: number; heightPx: number };
export type SizeMm = MeasurementRequest["sizeMm"];

/** A rectangle of the coupon's shape in the middle of the picture, with room around for the fingers. */
export function startCorners({ widthPx, heightPx }: PictureSize, { lengthMm, widthMm }: SizeMm): Corners {
  const perMm = Math.min((0.7 * widthPx) / lengthMm, (0.7 * heightPx) / widthMm);
  const [halfX, halfY] = [(lengthMm * perMm) / 2, (widthMm * perMm) / 2];
  const [x, y] = [widthPx / 2, heightPx / 2];
  return [
    [x - halfX, y - halfY],
    [x + halfX, y - halfY],
    [x + halfX, y + halfY],
    [x - halfX, y + halfY],
  ];
}

/** The nearest place inside the picture. */
export function inPicture([x, y]: Point, { widthPx, heightPx }: PictureSize): Point {
  return [Math.min(widthPx, Math.max(0, x)), Math.min(heightPx, Math.max(0, y))];
}

/** The corner moved, and kept inside the picture. */
export function withCorner(corners: Corners, at: number, to: Point, picture: PictureSize): Corners {
  const inside = inPicture(to, picture);
  const moved = (index: number) => (index === at ? inside : corners[index]!);
  return [moved(0), moved(1), moved(2), moved(3)];
}

/** The number reads a quarter turn further: the next corner becomes its top left. */
export function turned([first, second, third, fourth]: Corners): Corners {
  return [second, third, fourth, first];
}

export type CornerFault = "crossed" | "mirrored" | "too small";

/** Less than this many px along a side tells nothing of a rust spot. */
const shortestSidePx = 40;

/** What is wrong with the corners; null: they can be measured. */
export function cornerFault(corners: Corners): CornerFault | null {
  const turns = corners.map((corner, at) => turnAt(corners[(at + 3) % 4]!, corner, corners[(at + 1) % 4]!));
  if (corners.some((corner, at) => distance(corner, corners[(at + 1) % 4]!) < shortestSidePx)) return "too small";
  if (turns.every((turn) => turn < 0)) return "mirrored";
  return turns.every((turn) => turn > 0) ? null : "crossed";
}

/** True when the corners would fit the coupon much better with its two sides exchanged. */
export function sidesLookSwapped([a, b, c, d]: Corners, { lengthMm, widthMm }: SizeMm): boolean {
  const seen = (distance(a, b) + distance(c, d)) / (distance(b, c) + distance(d, a));
  const off = (ratio: number) => Math.abs(Math.log(seen / ratio));
  return off(lengthMm / widthMm) > 2 * off(widthMm / lengthMm);
}

const distance = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(bx - ax, by - ay);

/** Above 0: a right turn at the corner, as seen (y runs down). */
function turnAt([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): number {
  return (bx - ax) * (cy - by) - (by - ay) * (cx - bx);
}
