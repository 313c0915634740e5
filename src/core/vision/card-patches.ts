/**
 * The card's grey patches as the photograph shows them in balanced light: what ties the tones of one photograph to another's.
 *
 * No printed grey is known beforehand; the same card looks the same on every day, so its patches tell how two pictures differ in tone.
 *
 * Units    CIELAB (D65); darkest patch first
 * Source   our own
 * Status   common practice
 */
import { InputError } from "../input-error.ts";
import { type CardLight, lightAt, whiteLight } from "./card-light.ts";
import { type Lab, labFromSrgb } from "./colour-lab.ts";
import type { FoundCard } from "./find-card.ts";
import { srgbByteOf } from "./srgb-byte.ts";
import { windowImage } from "./window-image.ts";

/** The rim of a patch is left out: blur carries the paper over it. */
const rimMm = 2;
const pxPerMm = 4;

/** Refuses a card whose patches are covered or do not grow lighter in their order. */
export function cardPatches(photo: Parameters<typeof windowImage>[0], found: FoundCard, light: CardLight): Lab[] {
  const { card, printScale, toPicture } = found;
  const labs = card.patches.map(({ xMm, yMm, widthMm, heightMm }) => {
    const middle = { xMm: xMm + rimMm, yMm: yMm + rimMm, widthMm: widthMm - 2 * rimMm, heightMm: heightMm - 2 * rimMm };
    const printed = {
      xMm: middle.xMm * printScale,
      yMm: middle.yMm * printScale,
      widthMm: middle.widthMm * printScale,
      heightMm: middle.heightMm * printScale,
    };
    const seen = meanLight(windowImage(photo, toPicture, printed, pxPerMm / printScale).light);
    const paper = lightAt(light, [printed.xMm + printed.widthMm / 2, printed.yMm + printed.heightMm / 2]);
    const [red, green, blue] = seen.map((value, channel) => srgbByteOf((whiteLight * value) / paper[channel]!));
    const { lStar, aStar, bStar } = labFromSrgb({ red: red!, green: green!, blue: blue! });
    return { lStar, aStar, bStar };
  });
  const grows = labs.every((lab, at) => at === 0 || lab.lStar > labs[at - 1]!.lStar + leastStep);
  if (!grows)
    throw new InputError(
      "photo",
      `patches of L* ${labs.map(({ lStar }) => lStar.toFixed(0)).join(", ")}`,
      "the card's four grey patches in sight, dark to white",
    );
  return labs;
}

/** L* between neighbours; even a poor print has several times that. */
const leastStep = 4;

function meanLight(light: Float32Array): [number, number, number] {
  const sums: [number, number, number] = [0, 0, 0];
  for (let at = 0; at < light.length; at++) sums[(at % 3) as 0 | 1 | 2] += light[at]!;
  return sums.map((sum) => sum / (light.length / 3)) as [number, number, number];
}
