import { describe, expect, test } from "vitest";
import { faceRectangle, rustedShares } from "../src/core/vision/assessed-face.ts";
import type { RgbImage } from "../src/core/vision/raster.ts";
import { rectify } from "../src/core/vision/rectify.ts";
import { rustByModel } from "../src/core/vision/rust-by-model.ts";
import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import { rustSince } from "../src/core/vision/rust-since.ts";
import { type Look, renderLook } from "../src/server/demo/render-coupon.ts";
import { type SteelFinish, type SteelPiece, steelPiece } from "../src/server/demo/steel-piece.ts";

const sizeMm = { lengthMm: 60, widthMm: 40 };
const pieceOf = (finish: SteelFinish) => steelPiece({ seed: 77, number: "3", finish, sizeMm, edgeBandMm: 5 });

/** Square on, from another hand and in other light at each look. */
function picture(piece: SteelPiece, look: number, rustedPercent: number) {
  const of: Look = { look, rustedPercent, edgePercent: Math.min(100, 2 * rustedPercent), widthPx: 500 };
  const drawn = renderLook(piece, 77, of);
  return { ...rectify(drawn, drawn.cornersPx, sizeMm), truth: drawn.truth };
}

/** Both pictures at the size of the first. */
function fitted(image: RgbImage, to: RgbImage): RgbImage {
  const { widthPx, heightPx } = image;
  const corners = [
    [0, 0],
    [widthPx, 0],
    [widthPx, heightPx],
    [0, heightPx],
  ] as const;
  const mm = { lengthMm: to.widthPx / 4, widthMm: to.heightPx / 4 };
  const again = rectify(image, corners, mm).image;
  const rgb = new Uint8Array(to.rgb.length);
  for (let y = 0; y < to.heightPx; y++)
    for (let x = 0; x < to.widthPx; x++) {
      const from =
        (Math.min(again.heightPx - 1, Math.floor((y * again.heightPx) / to.heightPx)) * again.widthPx +
          Math.min(again.widthPx - 1, Math.floor((x * again.widthPx) / to.widthPx))) *
        3;
      rgb.set(again.rgb.subarray(from, from + 3), (y * to.widthPx + x) * 3);
    }
  return { widthPx: to.widthPx, heightPx: to.heightPx, rgb };
}

/** The piece with a colour laid over part of it, by share. */
function coated(piece: SteelPiece, colour: readonly number[], shareAt: (x: number, y: number) => number): SteelPiece {
  const rgb = piece.rgb.slice();
  for (let y = 0, at = 0; y < piece.height; y++)
    for (let x = 0; x < piece.width; x++, at++) {
      const share = shareAt(x / piece.width, y / piece.height);
      for (let channel = 0; channel < 3; channel++)
        rgb[at * 3 + channel] = rgb[at * 3 + channel]! * (1 - share) + colour[channel]! * share;
    }
  return { ...piece, rgb };
}

const stripe = (x: number) => (x > 0.35 && x < 0.55 ? 1 : 0);
const faceShare = (image: RgbImage, mask: ReturnType<typeof rustSince>) =>
  rustedShares(mask, faceRectangle(image, sizeMm, 5), sizeMm, 5).rustedPercent;

describe("rust since the first photograph", () => {
  test.each([
    // there from the start       sRGB           share
    ["red-brown primer", [120, 62, 44], 0.9],
    ["straw heat tint", [170, 130, 70], 0.5],
    ["an old rust stain", [98, 60, 42], 0.8],
  ] as const)("%s that was there before is not rust; what came is", (_, colour, share) => {
    const piece = coated(pieceOf("bare steel"), colour, (x) => share * stripe(x));
    const first = picture(piece, 0, 0);
    const now = picture(piece, 1, 6);
    const image = fitted(now.image, first.image);
    const since = faceShare(image, rustSince(first.image, image, first.pxPerMm, rustModel1));
    const alone = faceShare(image, rustByModel(image, null, first.pxPerMm, rustModel1));
    expect(Math.abs(since - now.truth.rustedPercent)).toBeLessThan(3);
    expect(Math.abs(since - now.truth.rustedPercent)).toBeLessThanOrEqual(
      Math.abs(alone - now.truth.rustedPercent) + 0.5,
    );
  });

  test.each(["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"] as const)(
    "clean at first, %s: what came is what is there, never more",
    (finish) => {
      const piece = pieceOf(finish);
      const first = picture(piece, 0, 0);
      const now = picture(piece, 1, 4);
      const image = fitted(now.image, first.image);
      const since = faceShare(image, rustSince(first.image, image, first.pxPerMm, rustModel1));
      const alone = faceShare(image, rustByModel(image, null, first.pxPerMm, rustModel1));
      expect(since).toBeLessThanOrEqual(alone);
      expect(since).toBeGreaterThan(0.8 * alone);
    },
  );

  test("a bloom of wax came and no rust: none", () => {
    const piece = pieceOf("phosphate waxed");
    const first = picture(piece, 0, 0);
    const bloomed = coated(piece, [205, 203, 198], (x, y) => 0.5 * Math.exp(-((x - 0.5) ** 2 + (y - 0.5) ** 2) / 0.05));
    const now = picture(bloomed, 1, 0);
    const image = fitted(now.image, first.image);
    expect(faceShare(image, rustSince(first.image, image, first.pxPerMm, rustModel1))).toBe(0);
  });

  test("the same picture twice: nothing came", () => {
    const { image, pxPerMm } = picture(pieceOf("phosphate dry"), 0, 12);
    expect(faceShare(image, rustSince(image, image, pxPerMm, rustModel1))).toBe(0);
  });

  test("rusted all over, with no clean place left to compare the light by: all of it", () => {
    const piece = pieceOf("phosphate oiled");
    const first = picture(piece, 0, 0);
    const image = fitted(picture(piece, 1, 100).image, first.image);
    expect(faceShare(image, rustSince(first.image, image, first.pxPerMm, rustModel1))).toBeGreaterThan(90);
  });

  test("refuses pictures of different size", () => {
    const { image } = picture(pieceOf("phosphate dry"), 0, 0);
    const smaller = { widthPx: 1, heightPx: 1, rgb: new Uint8Array(3) };
    expect(() => rustSince(image, smaller, null, rustModel1)).toThrow(/^now is "1 x 1 px"/);
  });
});
