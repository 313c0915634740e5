/**
 * Rust found pixel by pixel from its colour in CIELAB: the first form, without light correction, reference or learning.
 *
 * A pixel is rust where the mean colour around it is warm enough; rims of strong spots are then trimmed to their middle.
 * The limits are our own (common practice, no standard). They were chosen on photographs of rusted things, the training part
 * only, and the chroma limit lies between the two surfaces that matter most here: clean phosphate or steel (chroma up to about 3)
 * and dark, old or oiled rust (from about 7). Shifting any of them by a tenth moves the result on those photographs little.
 * Holds in neutral light. Orange and brown paint, wood and earth pass for rust; black holes and shadow do not.
 */
import { requirePositive } from "../input-error.ts";
import { boxMean } from "./box-mean.ts";
import { type LabImage, labImage, linearLight } from "./lab-image.ts";
import { marks, type RgbImage, type RustMask } from "./raster.ts";

/** Stands in every measurement made with it; the number rises whenever an answer can change. */
export const rustByColourMethod = "rust by colour in CIELAB, version 1";

const rule = {
  /** Neighbourhood of the mean colour: 0.15 mm to each side, between 1 and 3 px; 3 px where the scale is unknown. */
  aroundRadiusMm: 0.15,
  aroundRadiusPx: { least: 1, most: 3 },
  /** Least chroma C*ab; bright surfaces take a cast more easily, so it rises with lightness above L* 40. */
  leastChroma: 5,
  leastChromaPerLightness: 0.15,
  risesAboveLightness: 40,
  /** Hue angle, degrees. The upper limit falls as it gets brighter: dark brown is rust, pale yellow is not. */
  leastHueDeg: 17,
  mostHueDeg: 77,
  mostHueDegPerLightness: -0.4,
  fallsAboveLightness: 30,
  mostLightness: 72,
  /** Rims: near unrusted steel a pixel must be this share as warm as the rust around it, in full from the second chroma on. */
  rimRadiusPx: 3,
  rimOwnRadiusPx: 1,
  leastOwnShare: 0.85,
  rimTrimmedByChroma: { none: 7, full: 14 },
} as const;

const tangent = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
const leastTangent = tangent(rule.leastHueDeg);
/** By whole L*: tan of the highest hue angle, and the square of the least chroma. */
const mostTangent = Float64Array.from({ length: 102 }, (_, lightness) =>
  tangent(rule.mostHueDeg + rule.mostHueDegPerLightness * Math.max(0, lightness - rule.fallsAboveLightness)),
);
const leastChroma2 = Float64Array.from(
  { length: 102 },
  (_, lightness) =>
    (rule.leastChroma + rule.leastChromaPerLightness * Math.max(0, lightness - rule.risesAboveLightness)) ** 2,
);

/**
 * Marks rust in an sRGB picture; a mask of the same size in px. Nothing is left out by itself.
 * pxPerMm: scale of the picture, null where nobody knows it.
 */
export function rustByColour(image: RgbImage, pxPerMm: number | null): RustMask {
  if (pxPerMm !== null) requirePositive("pxPerMm", pxPerMm);
  const { widthPx, heightPx } = image;
  const lab = labImage(image);
  const found = warmPlaces(lab, aroundRadius(pxPerMm));
  trimRims(found, image, lab);
  return { widthPx, heightPx, marks: found };
}

function aroundRadius(pxPerMm: number | null): number {
  const { least, most } = rule.aroundRadiusPx;
  return pxPerMm === null ? most : Math.min(most, Math.max(least, Math.round(rule.aroundRadiusMm * pxPerMm)));
}

function warmPlaces({ widthPx, heightPx, ...lab }: LabImage, radiusPx: number): Uint8Array {
  const around = (plane: Float32Array) => boxMean(plane, widthPx, heightPx, radiusPx);
  const [lightness, a, b] = [around(lab.lightness), around(lab.a), around(lab.b)];
  const found = new Uint8Array(widthPx * heightPx);
  for (let at = 0; at < found.length; at++) {
    const greenRed = a[at]!;
    const blueYellow = b[at]!;
    if (greenRed <= 0 || blueYellow < leastTangent * greenRed || lightness[at]! > rule.mostLightness) continue;
    const whole = Math.max(0, Math.round(lightness[at]!));
    const chroma2 = greenRed * greenRed + blueYellow * blueYellow;
    if (chroma2 >= leastChroma2[whole]! && blueYellow <= mostTangent[whole]! * greenRed) found[at] = marks.rust;
  }
  return found;
}

/**
 * The mean around a strong spot is warm some way beyond its rim. Where unrusted steel is near, a pixel stays only if its own
 * red less blue, which in linear light mixes in proportion to area, comes up to about the middle between rust and steel.
 * Faint rust keeps its rim: there the middle is lost in its own unevenness.
 */
function trimRims(found: Uint8Array, { widthPx, heightPx, rgb }: RgbImage, { a, b }: LabImage): void {
  const mean = (plane: Float32Array, radiusPx: number) => boxMean(plane, widthPx, heightPx, radiusPx);
  const pixels = found.length;
  const warmth = new Float32Array(pixels);
  for (let at = 0; at < pixels; at++) warmth[at] = linearLight[rgb[at * 3]!]! - linearLight[rgb[at * 3 + 2]!]!;
  const own = mean(warmth, rule.rimOwnRadiusPx);
  const [isRust, warmthOfRust, chromaOfRust] = [0, 0, 0].map(() => new Float32Array(pixels)) as [Plane, Plane, Plane];
  for (let at = 0; at < pixels; at++) {
    if (found[at] !== marks.rust) continue;
    isRust[at] = 1;
    warmthOfRust[at] = own[at]!;
    chromaOfRust[at] = Math.sqrt(a[at]! ** 2 + b[at]! ** 2);
  }
  const share = mean(isRust, rule.rimRadiusPx);
  const warmthAround = mean(warmthOfRust, rule.rimRadiusPx);
  const chromaAround = mean(chromaOfRust, rule.rimRadiusPx);
  const { none, full } = rule.rimTrimmedByChroma;
  for (let at = 0; at < pixels; at++) {
    if (found[at] !== marks.rust || share[at]! > 0.999) continue;
    const trimmed = Math.min(1, Math.max(0, (chromaAround[at]! / share[at]! - none) / (full - none)));
    if (own[at]! * share[at]! < rule.leastOwnShare * trimmed * warmthAround[at]!) found[at] = marks.notRust;
  }
}

type Plane = Float32Array;
