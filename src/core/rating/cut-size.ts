/**
 * Whether the cut region as measured by the card is as large as the chosen cuts make it.
 *
 * Units    mm
 * Source   our own limit
 * Status   common practice
 */
import { requirePositive } from "../input-error.ts";

type Cuts = { form: "cross-cut"; cuts: number; spacingMm: number } | { form: "x-cut" };

/** Our own limit: a hand along a rule, and a card that lies a sheet's thickness lower, are off by less. Share of the side. */
const mostOff = 0.12;

/** What to look at where the card disagrees with the spacing; null where it agrees, and for an X, whose size is free. */
export function cutSizeSentence(side: { lengthMm: number; widthMm: number }, cuts: Cuts): string | null {
  requirePositive("lengthMm", side.lengthMm);
  requirePositive("widthMm", side.widthMm);
  if (cuts.form === "x-cut") return null;
  const dueMm = (cuts.cuts - 1) * cuts.spacingMm;
  const off = Math.max(Math.abs(side.lengthMm / dueMm - 1), Math.abs(side.widthMm / dueMm - 1));
  if (off <= mostOff) return null;
  return `By the measuring card the rings stand ${side.lengthMm.toFixed(1)} and ${side.widthMm.toFixed(1)} mm apart; ${cuts.cuts} cuts ${cuts.spacingMm} mm apart make ${dueMm} mm. Look at the rings and at the spacing that was chosen.`;
}
