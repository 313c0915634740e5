import { join } from "node:path";
import sharp from "sharp";
import { describe, expect, test, vi } from "vitest";
import { type CardScene, cleanCoupon, renderCard } from "../../../tests/rendered-card.ts";
import { temporaryFolder } from "../../../tests/temporary-folder.ts";
import type { ColourReadingRequest } from "../../api/finish-colour.ts";
import { onScaleOf } from "../../core/vision/same-colour-scale.ts";
import { readColour } from "./read-colour.ts";

vi.setConfig({ testTimeout: 60_000 });
const sizeMm = { lengthMm: 100, widthMm: 60 };

async function read(change: Partial<CardScene>, asked: Partial<ColourReadingRequest> = {}) {
  const scene = renderCard({ seed: 1, card: "medium", widthPx: 1400, coupon: greyCoupon(62), ...change });
  const outDir = await temporaryFolder();
  const photoPath = join(outDir, "photo.jpg");
  const raw = { width: scene.widthPx, height: scene.heightPx, channels: 3 } as const;
  await sharp(scene.rgb, { raw }).jpeg({ quality: 92 }).toFile(photoPath);
  const request = { photo: "a".repeat(64), cornersPx: null, sizeMm, edgeBandMm: 5, thicknessMm: 3, ...asked };
  return readColour({ photoPath, request, printScale: 1, outDir });
}

/** A face of one grey, with a lighter square in its right half where asked. */
function greyCoupon(level: number, spot: number | null = null) {
  const clean = cleanCoupon("phosphate dry");
  const { width, height } = clean.piece;
  const colours = Float32Array.from(clean.colours, (_, at) => {
    const [x, y] = [Math.floor(at / 3) % width, Math.floor(at / 3 / width)];
    const isSpot = Math.abs(x / width - 0.75) < 0.06 && Math.abs(y / height - 0.5) < 0.1;
    return spot !== null && isSpot ? spot : level;
  });
  return { ...clean, colours };
}

async function reading(change: Partial<CardScene>, asked: Partial<ColourReadingRequest> = {}) {
  const answer = await read(change, asked);
  if (!answer.read) throw new Error(answer.sentence);
  return answer.numbers;
}

describe("a finish colour from a rendered photograph", () => {
  test("a warm, slanting, dimmer light changes little once the card's patches set the scale", async () => {
    const plain = await reading({});
    const warm = await reading({ light: { exposure: 0.6, alongX: 0.4, tint: [1, 0.85, 0.7] } });
    const set = onScaleOf({ lab: warm.lab, patches: warm.patches, other: plain.patches });
    expect(Math.abs(set.lStar - plain.lab.lStar)).toBeLessThan(1);
    expect(Math.hypot(set.aStar - plain.lab.aStar, set.bStar - plain.lab.bStar)).toBeLessThan(1.5);
    expect(plain.blotches).toEqual([]);
  });

  test("a lighter coupon reads lighter, and a patch is found on it", async () => {
    const dark = await reading({});
    const spotted = await reading({ coupon: greyCoupon(80, 120) });
    expect(spotted.lab.lStar).toBeGreaterThan(dark.lab.lStar + 5);
    expect(spotted.blotches).toHaveLength(1);
    expect(Math.hypot(spotted.blotches[0]!.xMm - 75, spotted.blotches[0]!.yMm - 30)).toBeLessThan(2);
    expect(spotted.blotches[0]!.lighter).toBe(true);
  });

  test("what is hidden is no patch and no part of the colour", async () => {
    const plain = await reading({ coupon: greyCoupon(80) });
    const hiddenMm: [number, number][][] = [
      [
        [67, 21],
        [83, 21],
        [83, 39],
        [67, 39],
      ],
    ];
    const hidden = await reading({ coupon: greyCoupon(80, 120) }, { hiddenMm });
    expect(hidden.blotches).toEqual([]);
    expect(Math.abs(hidden.lab.lStar - plain.lab.lStar)).toBeLessThan(0.5);
  });

  test("without a card nothing is read, and the sentence says so", async () => {
    expect(await read({ hidden: [0, 1, 2, 3] })).toMatchObject({
      read: false,
      sentence: expect.stringMatching(/card/),
    });
  });
});
