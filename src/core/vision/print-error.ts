/** A card that came out of the printer smaller than it should ("fit to page"), told by the coupon on it. */
import type { SizeMm } from "./coupon-plane.ts";

/** Both sides are this much longer than planned before the print is suspected, and differ by no more than this from each other. */
const [leastShare, mostApartShare] = [0.01, 0.005];

/**
 * By how many percent the card is printed too small, where both of the coupon's sides read too long by the same share; else null. A
 * shadow or a careless cut adds millimetres to a side, not a share to both.
 *
 * Units    mm; %
 * Source   ours: on rendered cards printed at 93 to 99 % both sides were off by the same share to within 0.3 %
 * Status   common practice
 */
export function printedTooSmallPercent(measured: SizeMm, planned: SizeMm): number | null {
  const along = measured.lengthMm / planned.lengthMm;
  const across = measured.widthMm / planned.widthMm;
  if (Math.min(along, across) < 1 + leastShare || Math.abs(along - across) > mostApartShare) return null;
  return 100 * (1 - 2 / (along + across));
}
