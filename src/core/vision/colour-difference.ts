/** How different two colours look: CIEDE2000. */
import { requireFinite } from "../input-error.ts";
import { hueDegOf, type Lab } from "./colour-lab.ts";

const radians = (degrees: number) => (degrees * Math.PI) / 180;
/** 25^7, from the formula. */
const chromaPivot = 25 ** 7;

/**
 * Colour difference CIEDE2000.
 *
 * Method   colour.deltaE2000
 * Formula  CIE 142 with weights kL = kC = kH = 1
 * Units    CIELAB in; about 1 is just visible side by side
 * Source   CIE 142 (2001); Sharma, Wu and Dalal 2005 for the cases at the edges of the formula
 * Status   computed
 * Holds    for small differences; large ones only order colours
 * Refuses  a coordinate that is not a finite number
 */
export function deltaE2000({ first, second }: { first: Lab; second: Lab }): number {
  for (const [name, lab] of [
    ["first", first],
    ["second", second],
  ] as const)
    for (const coordinate of ["lStar", "aStar", "bStar"] as const)
      requireFinite(`${name}.${coordinate}`, lab?.[coordinate]);
  const meanChroma = (Math.hypot(first.aStar, first.bStar) + Math.hypot(second.aStar, second.bStar)) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(meanChroma ** 7 / (meanChroma ** 7 + chromaPivot)));
  const from = chromaAndHue(first, stretch);
  const to = chromaAndHue(second, stretch);
  const lightness = (first.lStar + second.lStar) / 2;
  const chroma = (from.chroma + to.chroma) / 2;
  const hue = meanHue(from, to);
  const weights = weightsAt(lightness, chroma, hue);
  const dL = (second.lStar - first.lStar) / weights.lightness;
  const dC = (to.chroma - from.chroma) / weights.chroma;
  const hueStep = from.chroma * to.chroma === 0 ? 0 : turn(to.hueDeg - from.hueDeg);
  const dH = (2 * Math.sqrt(from.chroma * to.chroma) * Math.sin(radians(hueStep / 2))) / weights.hue;
  return Math.sqrt(Math.max(0, dL * dL + dC * dC + dH * dH + weights.rotation * dC * dH));
}

type ChromaAndHue = { chroma: number; hueDeg: number };

function chromaAndHue({ aStar, bStar }: Lab, stretch: number): ChromaAndHue {
  const a = aStar * stretch;
  return { chroma: Math.hypot(a, bStar), hueDeg: hueDegOf(a, bStar) };
}

/** The shorter way round, -180 to 180 degrees. */
function turn(degrees: number): number {
  if (degrees > 180) return degrees - 360;
  return degrees < -180 ? degrees + 360 : degrees;
}

function meanHue(from: ChromaAndHue, to: ChromaAndHue): number {
  const sum = from.hueDeg + to.hueDeg;
  // A grey has no hue: the other's counts alone.
  if (from.chroma * to.chroma === 0) return sum;
  if (Math.abs(from.hueDeg - to.hueDeg) <= 180) return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}

function weightsAt(lightness: number, chroma: number, hueDeg: number) {
  const t =
    1 -
    0.17 * Math.cos(radians(hueDeg - 30)) +
    0.24 * Math.cos(radians(2 * hueDeg)) +
    0.32 * Math.cos(radians(3 * hueDeg + 6)) -
    0.2 * Math.cos(radians(4 * hueDeg - 63));
  const offset = (lightness - 50) ** 2;
  const blueness = 30 * Math.exp(-(((hueDeg - 275) / 25) ** 2));
  const saturation = 2 * Math.sqrt(chroma ** 7 / (chroma ** 7 + chromaPivot));
  return {
    lightness: 1 + (0.015 * offset) / Math.sqrt(20 + offset),
    chroma: 1 + 0.045 * chroma,
    hue: 1 + 0.015 * chroma * t,
    rotation: -saturation * Math.sin(radians(2 * blueness)),
  };
}
