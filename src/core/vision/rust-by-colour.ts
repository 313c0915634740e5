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
import { type LabImage, linearLight } from "./lab-image.ts";
import { givePlanesBack } from "./planes.ts";
import { marks, type RgbImage } from "./raster.ts";
import { sumsNearby } from "./sums-nearby.ts";

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
const leastChroma2OfAll = rule.leastChroma ** 2;
const leastChroma2 = Float64Array.from(
  { length: 102 },
  (_, lightness) =>
    (rule.leastChroma + rule.leastChromaPerLightness * Math.max(0, lightness - rule.risesAboveLightness)) ** 2,
);

/**
 * Marks rust in an sRGB picture whose CIELAB (L* 0 to 100, a*, b*) is at hand; a byte per pixel. Nothing is left out by itself.
 * pxPerMm: scale of the picture, null where nobody knows it. `over3`: CIELAB over 3 x 3 px, where that is at hand, too.
 */
export function colourMarks(image: RgbImage, lab: LabImage, pxPerMm: number | null, over3?: LabImage): Uint8Array {
  if (pxPerMm !== null) requirePositive("pxPerMm", pxPerMm);
  const radiusPx = aroundRadius(pxPerMm);
  const isOver3 = over3 !== undefined && radiusPx === 1;
  const around = isOver3 ? over3 : labOver(lab, radiusPx);
  const found = warmPlaces(around);
  if (!isOver3) givePlanesBack(around.lightness, around.a, around.b);
  trimRims(found, image, lab);
  return found;
}

/** CIELAB (L* 0 to 100, a*, b*) as the mean over (2 radius + 1)² px. */
export function labOver({ widthPx, heightPx, ...lab }: LabImage, radiusPx: number): LabImage {
  const around = (plane: Float32Array) => boxMean(plane, widthPx, heightPx, radiusPx);
  return { widthPx, heightPx, lightness: around(lab.lightness), a: around(lab.a), b: around(lab.b) };
}

function aroundRadius(pxPerMm: number | null): number {
  const { least, most } = rule.aroundRadiusPx;
  return pxPerMm === null ? most : Math.min(most, Math.max(least, Math.round(rule.aroundRadiusMm * pxPerMm)));
}

function warmPlaces({ widthPx, heightPx, lightness, a, b }: LabImage): Uint8Array {
  const found = new Uint8Array(widthPx * heightPx);
  for (let start = 0; start < found.length; start += widthPx) warmInRow(lightness, a, b, start, start + widthPx, found);
  return found;
}

function warmInRow(
  lightness: Float32Array,
  a: Float32Array,
  b: Float32Array,
  start: number,
  past: number,
  found: Uint8Array,
): void {
  for (let at = start; at < past; at++) {
    const greenRed = a[at]!;
    const blueYellow = b[at]!;
    const chroma2 = greenRed * greenRed + blueYellow * blueYellow;
    // Asked first: of grey steel the answer is nearly always the same, and a processor goes on without waiting for it.
    if (chroma2 < leastChroma2OfAll) continue;
    if (greenRed <= 0 || blueYellow < leastTangent * greenRed || lightness[at]! > rule.mostLightness) continue;
    const whole = Math.max(0, Math.round(lightness[at]!));
    if (chroma2 >= leastChroma2[whole]! && blueYellow <= mostTangent[whole]! * greenRed) found[at] = marks.rust;
  }
}

/**
 * The mean around a strong spot is warm some way beyond its rim. Where unrusted steel is near, a pixel stays only if its own
 * red less blue, which in linear light mixes in proportion to area, comes up to about the middle between rust and steel.
 * Faint rust keeps its rim: there the middle is lost in its own unevenness.
 */
function trimRims(found: Uint8Array, { widthPx, heightPx, rgb }: RgbImage, lab: LabImage): void {
  const before = found.slice();
  const { none, full } = rule.rimTrimmedByChroma;
  const rustNear = sumsNearby({ widthPx, heightPx, reachPx: rule.rimRadiusPx }, 3, (at, times, sums, to) => {
    if (before[at] !== marks.rust) return;
    sums[to]! += times;
    sums[to + 1]! += times * (linearLight[rgb[3 * at]!]! - linearLight[rgb[3 * at + 2]!]!);
    sums[to + 2]! += times * Math.sqrt(lab.a[at]! * lab.a[at]! + lab.b[at]! * lab.b[at]!);
  });
  const columns = new Uint32Array(widthPx);
  for (let row = 0; row < heightPx; row++) {
    const rims = rimsOfRow(before, row, widthPx, heightPx, columns);
    for (let rim = 0; rim < rims; rim++) {
      const column = columns[rim]!;
      const near = rustNear(row, column);
      const pixels = near[0]!;
      const rustWarmth = near[1]!;
      const chroma = near[2]!;
      const trimmed = Math.min(1, Math.max(0, (chroma / pixels - none) / (full - none)));
      const least = (rule.leastOwnShare * trimmed * rustWarmth) / pixels;
      if (ownWarmth(rgb, row, column, widthPx, heightPx) < least) found[row * widthPx + column] = marks.notRust;
    }
  }
}

/** Mean of red less blue, in linear light, over 3 x 3 px: less where the picture ends. */
function ownWarmth(rgb: Uint8Array, row: number, column: number, widthPx: number, heightPx: number): number {
  const r = rule.rimOwnRadiusPx;
  const top = Math.max(0, row - r);
  const bottom = Math.min(heightPx - 1, row + r);
  const left = Math.max(0, column - r);
  const right = Math.min(widthPx - 1, column + r);
  let sum = 0;
  for (let y = top; y <= bottom; y++)
    for (let byte = 3 * (y * widthPx + left); byte <= 3 * (y * widthPx + right); byte += 3)
      sum += linearLight[rgb[byte]!]! - linearLight[rgb[byte + 2]!]!;
  return sum / ((bottom - top + 1) * (right - left + 1));
}

/** Puts the columns of a row's rim pixels into `columns` and counts them. */
function rimsOfRow(found: Uint8Array, row: number, widthPx: number, heightPx: number, columns: Uint32Array): number {
  let count = 0;
  for (let column = 0, at = row * widthPx; column < widthPx; column++, at++)
    if (found[at] === marks.rust && isRim(found, at, row, column, widthPx, heightPx)) columns[count++] = column;
  return count;
}

/** Whether unrusted steel lies at the rim's radius, asked at eight points: all 49 pixels would cost more than the rest. */
function isRim(found: Uint8Array, at: number, row: number, column: number, widthPx: number, heightPx: number): boolean {
  const r = rule.rimRadiusPx;
  const left = Math.min(r, column);
  const right = Math.min(r, widthPx - 1 - column);
  const up = Math.min(r, row) * widthPx;
  const down = Math.min(r, heightPx - 1 - row) * widthPx;
  const rust = marks.rust;
  return (
    found[at - left] !== rust ||
    found[at + right] !== rust ||
    found[at - up] !== rust ||
    found[at + down] !== rust ||
    found[at - up - left] !== rust ||
    found[at - up + right] !== rust ||
    found[at + down - left] !== rust ||
    found[at + down + right] !== rust
  );
}
