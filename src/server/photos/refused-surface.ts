/** Water, oil and dust change colour and shine: what rust reads on such a coupon nobody knows. */
import type { CouponSurface, PhotoRefusal } from "../../api/photo.ts";

/** Why a coupon that was photographed so is not rated; null where it was dry and wiped, or nobody was asked. */
export function refusedSurface(surface: CouponSurface | undefined): PhotoRefusal | null {
  if (surface === undefined || surface === "dry and wiped") return null;
  return {
    refused: true,
    why: "surface",
    sentence: `The coupon was ${surface}: the photograph is kept and not rated. Dry and wipe it as the plan says, then take another.`,
    cornersPx: null,
    checks: [],
  };
}
