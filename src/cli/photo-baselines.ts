/** What `check photos` sets beside its own figures: a fixed rule run on the same pictures, and four published baselines. */
import { seededRandom } from "../core/numeric/random.ts";
import type { RgbImage } from "../core/vision/raster.ts";

type Baseline = {
  method: string;
  meanIou: number;
  medianErrorPoints: number;
  p90ErrorPoints: number;
  withinOneGradePercent: number;
  cleanMeasuredPercent: number;
};

/** As published with the open set of photographs, on its 22 test pictures; on other pictures they say nothing. */
export const publishedBaselines: { pictures: number; rows: readonly Baseline[] } = {
  pictures: 22,
  rows: [
    ["fixed hue and saturation", 0.456, 7.47, 89.4, 73, 0],
    ["k-means in Lab, reddest of 4", 0.299, 24.07, 74.4, 41, 36.72],
    ["logistic, 13 features", 0.455, 6.55, 26.4, 73, 0.01],
    ["random forest, 13 features", 0.444, 6.17, 34.7, 59, 0.01],
  ].map(([method, meanIou, medianErrorPoints, p90ErrorPoints, withinOneGradePercent, cleanMeasuredPercent]) => ({
    method: String(method),
    meanIou: Number(meanIou),
    medianErrorPoints: Number(medianErrorPoints),
    p90ErrorPoints: Number(p90ErrorPoints),
    withinOneGradePercent: Number(withinOneGradePercent),
    cleanMeasuredPercent: Number(cleanMeasuredPercent),
  })),
};

/** The first of them, run again: hue from 345 to 50 degrees, saturation from 0.25, value from 0.08 to 0.92 (HSV). 255 = rust. */
export function fixedHueRule({ rgb }: RgbImage): Uint8Array {
  const found = new Uint8Array(rgb.length / 3);
  for (let at = 0, byte = 0; at < found.length; at++, byte += 3) {
    const [red, green, blue] = [rgb[byte]!, rgb[byte + 1]!, rgb[byte + 2]!];
    const value = Math.max(red, green, blue);
    const range = value - Math.min(red, green, blue);
    if (red < value || value < 0.08 * 255 || value > 0.92 * 255 || range < 0.25 * value || range === 0) continue;
    const hueDeg = (60 * (green - blue)) / range;
    if (hueDeg >= -15 && hueDeg <= 50) found[at] = 255;
  }
  return found;
}

type Compared = { iou: number | null; errorPoints: number };

export type Interval = { value: number; lower: number; upper: number };

/** Ours less the fixed rule's, of mean IoU and of mean area error, with 95 % over pictures drawn again, pair by pair. */
export function pairedDifference(
  ours: readonly Compared[],
  rule: readonly Compared[],
): { iou: Interval | null; errorPoints: Interval | null } {
  const rusted = ours.flatMap((one, at) => (one.iou === null ? [] : [one.iou - rule[at]!.iou!]));
  return {
    iou: meanWithInterval(rusted),
    errorPoints: meanWithInterval(ours.map((one, at) => one.errorPoints - rule[at]!.errorPoints)),
  };
}

const draws = 10_000;

function meanWithInterval(differences: readonly number[]): Interval | null {
  if (differences.length < 2) return null;
  const random = seededRandom(1);
  const mean = (of: () => number) => {
    let sum = 0;
    for (let i = 0; i < differences.length; i++) sum += of();
    return sum / differences.length;
  };
  const again = Float64Array.from({ length: draws }, () =>
    mean(() => differences[random.below(differences.length)]!),
  ).sort();
  let next = 0;
  return {
    value: mean(() => differences[next++]!),
    lower: again[Math.floor(0.025 * draws)]!,
    upper: again[Math.floor(0.975 * draws)]!,
  };
}
