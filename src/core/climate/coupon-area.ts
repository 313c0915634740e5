/** The whole surface of a flat coupon. */
import { InputError, requireNotNegative, requirePositive } from "../input-error.ts";

/**
 * Area of all faces, edges and the bore of a plate with one through hole.
 *
 * Method   corrosion.couponArea
 * Formula  2 (ab + at + bt) - 2 π r² + 2 π r t
 * Units    mm in, mm² out; holeDiameterMm 0 for no hole
 * Source   geometry
 * Status   computed
 * Holds    for a square-edged plate; a stamped number adds a little
 * Refuses  a length of 0 or less; a negative hole; a hole as wide as the coupon or wider
 */
export function couponArea(coupon: {
  lengthMm: number;
  widthMm: number;
  thicknessMm: number;
  holeDiameterMm: number;
}): number {
  const { lengthMm: a, widthMm: b, thicknessMm: t, holeDiameterMm } = coupon;
  requirePositive("lengthMm", a);
  requirePositive("widthMm", b);
  requirePositive("thicknessMm", t);
  requireNotNegative("holeDiameterMm", holeDiameterMm);
  if (holeDiameterMm >= Math.min(a, b))
    throw new InputError("holeDiameterMm", holeDiameterMm, `a hole narrower than the coupon, ${Math.min(a, b)} mm`);
  const r = holeDiameterMm / 2;
  return 2 * (a * b + a * t + b * t) - 2 * Math.PI * r * r + 2 * Math.PI * r * t;
}
