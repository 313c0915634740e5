/** Places that are not judged (hole, stamp, wire, label) and the outline of an odd shape, in mm on the coupon seen square on. */
import type { MeasurementRequest } from "../../api/photo.ts";
import type { SizeMm } from "./corner-geometry.ts";

export type Polygon = NonNullable<MeasurementRequest["outlineMm"]>;
export type PointMm = Polygon[number];
/** Where it hung or touched. */
export type Contact = NonNullable<MeasurementRequest["contactsMm"]>[number];
/** Fewer than three corners: no outline, the whole rectangle is the coupon. */
export type Places = { hiddenMm: Polygon[]; outlineMm: Polygon; contactsMm: Contact[] };
export type PlaceForm = "round" | "box";

/** So many corners keep a circle within half a percent of its area. */
const roundCorners = 32;
export const smallestMm = 1;

/** Round it lies about the circle, so that nothing of the hole is judged. */
export function newPlace(form: PlaceForm, [x, y]: PointMm, acrossMm: number): Polygon {
  const half = acrossMm / 2;
  if (form === "box")
    return (
      [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1],
      ] as const
    ).map(([dx, dy]) => mm(x + dx * half, y + dy * half));
  const reach = half / Math.cos(Math.PI / roundCorners);
  return Array.from({ length: roundCorners }, (_, at) => {
    const turn = (2 * Math.PI * (at + 0.5)) / roundCorners;
    return mm(x + reach * Math.cos(turn), y + reach * Math.sin(turn));
  });
}

/** A hundredth of a mm is more than a finger can do. */
const mm = (x: number, y: number): PointMm => [Math.round(x * 100) / 100, Math.round(y * 100) / 100];

export const isBox = (polygon: Polygon): boolean => polygon.length === 4;

export type Bounds = { xMm: number; yMm: number; lengthMm: number; widthMm: number };

/** Middle and size. */
export function boundsOf(polygon: Polygon): Bounds {
  const [xs, ys] = [polygon.map(([x]) => x), polygon.map(([, y]) => y)];
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return { xMm: (left + right) / 2, yMm: (top + bottom) / 2, lengthMm: right - left, widthMm: bottom - top };
}

/** Its middle stays on the coupon. */
export function placeMoved(polygon: Polygon, [x, y]: PointMm, size: SizeMm): Polygon {
  const { xMm, yMm } = boundsOf(polygon);
  const [toX, toY] = insideOf(size, [x, y]);
  return polygon.map(([px, py]) => mm(px + toX - xMm, py + toY - yMm));
}

export function insideOf({ lengthMm, widthMm }: SizeMm, [x, y]: PointMm): PointMm {
  return mm(Math.min(lengthMm, Math.max(0, x)), Math.min(widthMm, Math.max(0, y)));
}

/** Grown by so many mm, about its middle; never smaller than a mm, never larger than the coupon. */
export function placeGrown(polygon: Polygon, by: { alongMm: number; acrossMm: number }, size: SizeMm): Polygon {
  const { xMm, yMm, lengthMm, widthMm } = boundsOf(polygon);
  const grown = (from: number, more: number, most: number) => Math.min(most, Math.max(smallestMm, from + more)) / from;
  const most = isBox(polygon) ? size : { lengthMm: size.widthMm, widthMm: size.widthMm };
  const alongTimes = grown(lengthMm, by.alongMm, Math.max(most.lengthMm, smallestMm));
  const acrossTimes = grown(widthMm, by.acrossMm, Math.max(most.widthMm, smallestMm));
  return polygon.map(([x, y]) => mm(xMm + (x - xMm) * alongTimes, yMm + (y - yMm) * acrossTimes));
}

/** Wider by so many mm; never less than a mm across, never more than the coupon is wide. */
export function contactGrown(contact: Contact, byMm: number, { widthMm }: SizeMm): Contact {
  return { ...contact, radiusMm: Math.min(widthMm, Math.max(smallestMm, 2 * contact.radiusMm + byMm)) / 2 };
}

/** A corner more: at the end while there are few, later in the side that it lies nearest to. */
export function withOutlineCorner(outline: Polygon, corner: PointMm): Polygon {
  if (outline.length < 3) return [...outline, corner];
  const off = outline.map((from, at) => distanceToSide(corner, from, outline[(at + 1) % outline.length]!));
  const side = off.indexOf(Math.min(...off));
  return outline.toSpliced(side + 1, 0, corner);
}

function distanceToSide([x, y]: PointMm, [ax, ay]: PointMm, [bx, by]: PointMm): number {
  const square = (bx - ax) ** 2 + (by - ay) ** 2;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square));
  return Math.hypot(x - ax - share * (bx - ax), y - ay - share * (by - ay));
}

export const wholeRectangle = ({ lengthMm, widthMm }: SizeMm): Polygon => [
  [0, 0],
  [lengthMm, 0],
  [lengthMm, widthMm],
  [0, widthMm],
];

/** What is wrong with an outline; null: it can be used, or there is none. */
export function outlineFault(outline: Polygon): "too few" | "crossed" | null {
  if (outline.length === 0) return null;
  if (outline.length < 3) return "too few";
  const sides = outline.map((from, at) => [from, outline[(at + 1) % outline.length]!] as const);
  const crosses = sides.some((one, at) => sides.some((other, to) => to > at + 1 && isCrossing(one, other)));
  return crosses ? "crossed" : null;
}

type Side = readonly [PointMm, PointMm];

/** Sides that only share a corner do not cross. */
function isCrossing([a, b]: Side, [c, d]: Side): boolean {
  const turn = ([px, py]: PointMm, [qx, qy]: PointMm, [rx, ry]: PointMm) =>
    Math.sign((qx - px) * (ry - py) - (qy - py) * (rx - px));
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** What is not judged as a request carries it: what is not there is left out. */
export function asRequested({
  hiddenMm,
  outlineMm,
}: Pick<Places, "hiddenMm" | "outlineMm">): Pick<MeasurementRequest, "hiddenMm" | "outlineMm"> {
  return { ...(hiddenMm.length > 0 ? { hiddenMm } : {}), ...(outlineMm.length >= 3 ? { outlineMm } : {}) };
}

export function contactsRequested({ contactsMm }: Places): Pick<MeasurementRequest, "contactsMm"> {
  return contactsMm.length > 0 ? { contactsMm } : {};
}
