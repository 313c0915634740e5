/** What the model is learned from: photographs with masks, and rendered coupons whose rust is known point by point. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { rectify } from "../../src/core/vision/rectify.ts";
import { shrunk } from "../../src/core/vision/shrink.ts";
import { renderLook } from "../../src/server/demo/render-coupon.ts";
import { type SteelFinish, steelPiece } from "../../src/server/demo/steel-piece.ts";
import { decodePhoto } from "../../src/server/photos/read-photo.ts";
import type { Masked } from "./altered.ts";

export type Picture = Masked & { id: string; group: string; real: boolean; percent: number };

/** Pictures of one thing, or of one place, are left out together. */
const groups: readonly (readonly [string, RegExp])[] = [
  ["coupon", /^coupons-/],
  ["tread plate", /-(m0210|m0212|m0319|m0370|m089|m093|m09|m0143)$/],
  ["rail", /-(m0857|m0858|m0861|m0862)$/],
  ["post", /-(m0886|s0892)$/],
  ["bar", /-(m0905|m0909)$/],
  ["bolt", /-(m0968|m0971)$/],
  ["gate", /-(s0952|s0953)$/],
];

/** Longest side at which a picture is looked at, px; the same as in use. */
const longestPx = 1000;

export async function photographs(folder: string): Promise<Picture[]> {
  const listed: {
    id: string;
    photo: string;
    mask: string;
    roi: string | null;
    split: string;
    scored: boolean;
    rustedPercent: number;
  }[] = JSON.parse(readFileSync(join(folder, "manifest.json"), "utf8"));
  const pictures: Picture[] = [];
  for (const one of listed.filter(({ split, scored }) => scored && split === "train")) {
    const full = await decodePhoto(join(folder, one.photo));
    const image = shrunk(full, longestPx);
    const rust = await white(join(folder, one.mask), image);
    const counted = one.roi ? await white(join(folder, one.roi), image) : new Uint8Array(rust.length).fill(255);
    const group = groups.find(([, pattern]) => pattern.test(one.id))?.[0] ?? one.id;
    pictures.push({ id: one.id, group, real: true, image, rust, counted, pxPerMm: null, percent: one.rustedPercent });
  }
  return pictures;
}

async function white(path: string, to: { widthPx: number; heightPx: number }): Promise<Uint8Array> {
  const { data } = await sharp(path)
    .toColourspace("b-w")
    .resize(to.widthPx, to.heightPx, { fit: "fill", kernel: "linear" })
    .extractChannel(0)
    .raw()
    .toBuffer({ resolveWithObject: true });
  return Uint8Array.from(data, (value) => (value >= 128 ? 255 : 0));
}

const sizeMm = { lengthMm: 100, widthMm: 60 };
const finishes: readonly SteelFinish[] = ["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"];

/** Coupons of all finishes, each with these percentages of rust, through a camera and JPEG. Seeds from `firstSeed` on. */
export async function renderedCoupons(
  firstSeed: number,
  percents: readonly number[] = [0, 0.3, 2, 8, 40, 95],
): Promise<Picture[]> {
  const pictures: Picture[] = [];
  for (const [sort, widthPx] of [600, 1200, 900].entries())
    for (const [at, finish] of finishes.entries()) {
      const seed = firstSeed + sort * 10 + at;
      const piece = steelPiece({ seed, number: String(10 + sort), finish, sizeMm, edgeBandMm: 5 });
      for (const [look, percent] of percents.entries()) {
        const edgePercent = Math.min(100, 2 * percent);
        const drawn = renderLook(piece, seed, { look, rustedPercent: percent, edgePercent, widthPx });
        const raw = { width: drawn.widthPx, height: drawn.heightPx, channels: 3 } as const;
        const jpeg = await sharp(drawn.rgb, { raw }).jpeg({ quality: 88 }).toBuffer();
        const photo = { ...drawn, rgb: new Uint8Array(await sharp(jpeg).raw().toBuffer()) };
        const { image, pxPerMm } = rectify(photo, drawn.cornersPx, sizeMm);
        const before = (order: Float32Array, share: number) =>
          share === 0
            ? Number.NEGATIVE_INFINITY
            : (order[Math.round((share / 100) * order.length)] ?? Number.POSITIVE_INFINITY);
        const ends = { face: before(piece.faceOrder, percent), edge: before(piece.edgeOrder, edgePercent) };
        const rust = new Uint8Array(image.widthPx * image.heightPx);
        for (let y = 0, to = 0; y < image.heightPx; y++)
          for (let x = 0; x < image.widthPx; x++, to++) {
            const cellX = Math.floor(((x + 0.5) / image.widthPx) * piece.width);
            const cellY = Math.floor(((y + 0.5) / image.heightPx) * piece.height);
            const { left, right, top, bottom } = piece.face;
            const onFace = cellX >= left && cellX < right && cellY >= top && cellY < bottom;
            rust[to] = piece.onset[cellY * piece.width + cellX]! < (onFace ? ends.face : ends.edge) ? 255 : 0;
          }
        const counted = new Uint8Array(rust.length).fill(255);
        const share = (100 * rust.filter((mark) => mark !== 0).length) / rust.length;
        pictures.push({
          id: `${finish} ${percent} % ${widthPx}`,
          group: `${finish} ${sort}`,
          real: false,
          image,
          rust,
          counted,
          pxPerMm,
          percent: share,
        });
      }
    }
  return pictures;
}
