/**
 * Rust round the places where a coupon hung or touched: wires, hooks, the rack.
 *
 * Units    mm, % of area
 * Source   our own
 * Status   common practice
 */
import { InputError, requireFinite, requirePositive } from "../input-error.ts";
import { requireSize, type SizeMm } from "./coupon-plane.ts";
import { marks, type RustMask } from "./raster.ts";

export type ContactPoint = { xMm: number; yMm: number; radiusMm: number };

/** Rusted part, %, of the coupon within the radius of each contact point, left-out places not counted; null where nothing is left. */
export function rustAroundContacts(mask: RustMask, size: SizeMm, contacts: readonly ContactPoint[]): (number | null)[] {
  requireSize(size);
  const mmX = size.lengthMm / mask.widthPx;
  const mmY = size.widthMm / mask.heightPx;
  return contacts.map(({ xMm, yMm, radiusMm }, index) => {
    requireFinite(`contacts[${index}].xMm`, xMm);
    requireFinite(`contacts[${index}].yMm`, yMm);
    requirePositive(`contacts[${index}].radiusMm`, radiusMm);
    if (xMm + radiusMm < 0 || yMm + radiusMm < 0 || xMm - radiusMm > size.lengthMm || yMm - radiusMm > size.widthMm)
      throw new InputError(`contacts[${index}]`, [xMm, yMm], "a place on the coupon or at its edge");
    let [rust, counted] = [0, 0];
    const firstRow = Math.max(0, Math.floor((yMm - radiusMm) / mmY));
    const lastRow = Math.min(mask.heightPx - 1, Math.ceil((yMm + radiusMm) / mmY));
    for (let row = firstRow; row <= lastRow; row++)
      for (let column = 0; column < mask.widthPx; column++) {
        if (Math.hypot((column + 0.5) * mmX - xMm, (row + 0.5) * mmY - yMm) > radiusMm) continue;
        const mark = mask.marks[row * mask.widthPx + column];
        if (mark === marks.leftOut) continue;
        counted++;
        if (mark === marks.rust) rust++;
      }
    return counted === 0 ? null : (100 * rust) / counted;
  });
}
