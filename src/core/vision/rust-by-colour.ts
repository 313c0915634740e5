/**
 * Rust found pixel by pixel from its colour in CIELAB: the first form, without light correction, reference or learning.
 *
 * A pixel is rust where the mean colour around it is warm enough and its own colour takes part in that warmth.
 * The limits are our own (common practice, no standard). They were chosen on photographs of rusted things, the training part
 * only, and the chroma limit lies between the two surfaces that matter most here: clean phosphate or steel (chroma up to about 3)
 * and dark, old or oiled rust (from about 7). Shifting any of them by a tenth moves the result on those photographs little.
 * Holds in neutral light. Orange and brown paint, wood and earth pass for rust; black holes and shadow do not.
 */
import { boxMean } from "./box-mean.ts";
import { labImage } from "./lab-image.ts";
import { marks, type RgbImage, type RustMask } from "./raster.ts";

/** Stands in every measurement made with it; the number rises whenever an answer can change. */
export const rustByColourMethod = "rust by colour in CIELAB, version 1";

const rule = {
  /** Neighbourhood of the mean colour and of the pixel's own, px. */
  aroundRadiusPx: 3,
  ownRadiusPx: 1,
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
  /** Own chroma relative to the mean around: keeps the rim of a strong spot from swelling. */
  leastOwnShare: 0.6,
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

/** Marks rust in an sRGB picture; a mask of the same size in px. Nothing is left out by itself. */
export function rustByColour(image: RgbImage): RustMask {
  const { widthPx, heightPx } = image;
  const lab = labImage(image);
  const around = (plane: Float32Array) => boxMean(plane, widthPx, heightPx, rule.aroundRadiusPx);
  const own = (plane: Float32Array) => boxMean(plane, widthPx, heightPx, rule.ownRadiusPx);
  const [lightness, a, b, ownA, ownB] = [around(lab.lightness), around(lab.a), around(lab.b), own(lab.a), own(lab.b)];
  const found = new Uint8Array(widthPx * heightPx);
  const leastOwnShare2 = rule.leastOwnShare ** 2;
  for (let at = 0; at < found.length; at++) {
    const greenRed = a[at]!;
    const blueYellow = b[at]!;
    if (greenRed <= 0 || blueYellow < leastTangent * greenRed || lightness[at]! > rule.mostLightness) continue;
    const whole = Math.max(0, Math.round(lightness[at]!));
    const chroma2 = greenRed * greenRed + blueYellow * blueYellow;
    if (chroma2 < leastChroma2[whole]! || blueYellow > mostTangent[whole]! * greenRed) continue;
    if (ownA[at]! ** 2 + ownB[at]! ** 2 >= leastOwnShare2 * chroma2) found[at] = marks.rust;
  }
  return { widthPx, heightPx, marks: found };
}
