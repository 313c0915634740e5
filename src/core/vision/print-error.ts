/** A card that came out of the printer at another size than the shop knows ("fit to page"), told by the coupon on it. */
import type { SizeMm } from "./coupon-plane.ts";

/** What a printer does to a page, as a share of a side: less is a careless cut, more another coupon. */
const [leastShare, mostShare] = [0.005, 0.12];
/** From here on, and within this of each other, both sides say the same of the print. */
const alike = { fromShare: 0.01, apartShare: 0.005 };

export type PrintError = {
  print: "too small" | "too large";
  /** By the side that is less off and by the one that is more off. */
  leastPercent: number;
  mostPercent: number;
  /** Both sides are off by the same share: a shadow or a careless cut adds millimetres to a side, not a share to both. */
  isAlike: boolean;
};

/**
 * How far the card's print may be off, where both of the coupon's sides read too long, or both too short, by what a printer does; else null.
 * One of them may have been found on a line beside its edge, nearer to the plan: then the sides do not agree, and the print is one reason of two.
 *
 * Units    mm; %
 * Source   ours: on rendered cards printed at 93 to 99 % sides that were found on their edges were off by the same share to within 0.3 %
 * Status   common practice
 */
export function printError(measured: SizeMm, planned: SizeMm): PrintError | null {
  const off = [measured.lengthMm / planned.lengthMm - 1, measured.widthMm / planned.widthMm - 1];
  const isTooSmall = off.every((share) => share > 0);
  if (!isTooSmall && off.some((share) => share > 0)) return null;
  const shares = off.map(Math.abs);
  const [least, most] = [Math.min(...shares), Math.max(...shares)];
  if (least < leastShare || most > mostShare) return null;
  // A side that reads 3 % too long lies on a card printed at 1 / 1.03.
  const percent = (share: number) => (isTooSmall ? 100 * (1 - 1 / (1 + share)) : 100 * (1 / (1 - share) - 1));
  return {
    print: isTooSmall ? "too small" : "too large",
    leastPercent: percent(least),
    mostPercent: percent(most),
    isAlike: least >= alike.fromShare && most - least <= alike.apartShare,
  };
}
