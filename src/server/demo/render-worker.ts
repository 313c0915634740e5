/** The worker thread that renders the demonstration's coupons: one coupon in, a picture of each of its looks out. */
import sharp from "sharp";
import type { CornersPx } from "../../core/vision/coupon-plane.ts";
import { type Look, renderLook } from "./render-coupon.ts";
import { steelPiece } from "./steel-piece.ts";

export type RenderTask = { piece: Parameters<typeof steelPiece>[0]; looks: Look[] };
export type RenderedPhoto = { jpeg: Uint8Array; widthPx: number; heightPx: number; cornersPx: CornersPx };

/** As a phone stores it. */
const jpegQuality = 88;

export default async function work({ piece: of, looks }: RenderTask): Promise<RenderedPhoto[]> {
  const piece = steelPiece(of);
  const photos: RenderedPhoto[] = [];
  for (const look of looks) {
    const { rgb, widthPx, heightPx, cornersPx } = renderLook(piece, of.seed, look);
    const raw = { width: widthPx, height: heightPx, channels: 3 as const };
    const jpeg = await sharp(rgb, { raw }).jpeg({ quality: jpegQuality }).toBuffer();
    photos.push({ jpeg, widthPx, heightPx, cornersPx });
  }
  return photos;
}
