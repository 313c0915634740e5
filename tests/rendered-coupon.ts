/** One rendered coupon at one look, for tests that need a single picture; the demonstration makes each piece once. */
import type { SizeMm } from "../src/core/vision/coupon-plane.ts";
import { type Look, type RenderedCoupon, renderLook } from "../src/server/demo/render-coupon.ts";
import { type SteelFinish, steelPiece } from "../src/server/demo/steel-piece.ts";

export function renderCoupon(
  of: Look & { seed: number; number: string; finish: SteelFinish; sizeMm: SizeMm; edgeBandMm: number },
): RenderedCoupon {
  return renderLook(steelPiece(of), of.seed, of);
}
