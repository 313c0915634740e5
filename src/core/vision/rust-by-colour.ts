/**
 * Rust found pixel by pixel from its colour in CIELAB, without light correction, reference or learning: the learned model reads it
 * as one of its inputs, and on a grey coupon it says where the model overlooks orange.
 *
 * A pixel is rust where the mean colour around it is warm enough; rims of strong spots are then trimmed to their middle.
 * The limits are our own (common practice, no standard). They were chosen on photographs of rusted things, the training part
 * only, and the chroma limit lies between the two surfaces that matter most here: clean phosphate or steel (chroma up to about 3)
 * and dark, old or oiled rust (from about 7). Shifting any of them by a tenth moves the result on those photographs little.
 * Holds in neutral light. Orange and brown paint, wood and earth pass for rust; black holes and shadow do not.
 *
 * Units    sRGB bytes and px per mm in; a mark per pixel out
 * Source   our own rule in CIELAB; limits chosen on photographs of rusted things
 * Status   common practice
 */
import { requirePositive } from "../input-error.ts";
import { boxMean } from "./box-mean.ts";
import type { LabImage } from "./lab-image.ts";
import { addressOf, inRoom, kept, lentBytes, pixelLoops, placeOf } from "./pixel-loops.ts";
import type { RgbImage } from "./raster.ts";
import { takePictureForRims } from "./trimmed-rims.ts";

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
  leastOwnShare: 0.85,
  rimTrimmedByChroma: { none: 7, full: 14 },
} as const;

const tangent = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
/** L* goes up to 100 and a little beyond in a mean of rounded values. */
const wholeLevels = Array.from({ length: 102 }, (_, lightness) => lightness);
/** The rule's limits as the loop takes them: of all colours, then by whole L* the square of the least chroma and the tangent of the highest hue. */
const warmLimits = Float32Array.of(
  rule.leastChroma ** 2,
  tangent(rule.leastHueDeg),
  rule.mostLightness,
  ...wholeLevels.map(
    (level) => (rule.leastChroma + rule.leastChromaPerLightness * Math.max(0, level - rule.risesAboveLightness)) ** 2,
  ),
  ...wholeLevels.map((level) =>
    tangent(rule.mostHueDeg + rule.mostHueDegPerLightness * Math.max(0, level - rule.fallsAboveLightness)),
  ),
);
const rimLimits = Float32Array.of(
  rule.rimRadiusPx,
  rule.leastOwnShare,
  rule.rimTrimmedByChroma.none,
  rule.rimTrimmedByChroma.full,
);

/**
 * Marks rust in an sRGB picture whose CIELAB (L* 0 to 100, a*, b*) is at hand; a byte per pixel. Nothing is left out by itself.
 * pxPerMm: scale of the picture, null where nobody knows it. `over3`: CIELAB over 3 x 3 px, where that is at hand, too.
 */
export function colourMarks(image: RgbImage, lab: LabImage, pxPerMm: number | null, over3?: LabImage): Uint8Array {
  if (pxPerMm !== null) requirePositive("pxPerMm", pxPerMm);
  const radiusPx = aroundRadius(pxPerMm);
  return kept(() => {
    const found = lentBytes(image.widthPx * image.heightPx);
    inRoom(() => {
      const around = over3 !== undefined && radiusPx === 1 ? over3 : labOver(lab, radiusPx);
      const planes = [addressOf(around.lightness), addressOf(around.a), addressOf(around.b)] as const;
      pixelLoops().warmPlaces(...planes, found.length, addressOf(warmLimits), found.byteOffset);
    });
    trimRims(found, image, lab);
    return found;
  });
}

/** CIELAB (L* 0 to 100, a*, b*) as the mean over (2 radius + 1)² px. */
export function labOver({ widthPx, heightPx, ...lab }: LabImage, radiusPx: number): LabImage {
  const around = (plane: Float32Array) => boxMean(plane, widthPx, heightPx, radiusPx);
  return kept(() => ({ widthPx, heightPx, lightness: around(lab.lightness), a: around(lab.a), b: around(lab.b) }));
}

function aroundRadius(pxPerMm: number | null): number {
  const { least, most } = rule.aroundRadiusPx;
  return pxPerMm === null ? most : Math.min(most, Math.max(least, Math.round(rule.aroundRadiusMm * pxPerMm)));
}

/**
 * The mean around a strong spot is warm some way beyond its rim. Where unrusted steel is near, a pixel stays only if its own
 * red less blue, which in linear light mixes in proportion to area, comes up to about the middle between rust and steel.
 * Faint rust keeps its rim: there the middle is lost in its own unevenness.
 */
function trimRims(found: Uint8Array, image: RgbImage, lab: LabImage): void {
  inRoom(() => {
    const before = lentBytes(found.length);
    before.set(found);
    takePictureForRims(image);
    pixelLoops().trimByColour(
      placeOf(found),
      before.byteOffset,
      addressOf(lab.a),
      addressOf(lab.b),
      addressOf(rimLimits),
    );
  });
}
