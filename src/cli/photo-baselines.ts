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

/** Nearest figures of others, read where it says; other pictures and other definitions, so nothing here is ahead of or behind them. */
export const publishedElsewhere: readonly { pictures: string; model: string; figure: string; readIn: string }[] = [
  {
    pictures: "440 of bridges, 4 states (doi 10.7294/16624663)",
    model: "DeepLabV3+",
    figure: "F1 86.67 % over classes",
    readIn: "readme of its code",
  },
  {
    pictures: "the same and a second bridge set, 2 classes",
    model: "DeepLabV3+, ResNet-101",
    figure: "rust IoU 0.740, both classes 0.825",
    readIn: "readme of a fork",
  },
  {
    pictures: "440 of bridges, 2 classes",
    model: "U-Net; ResNet34-U-Net",
    figure: "IoU 0.567; 0.681 (validation)",
    readIn: "readme of code",
  },
  {
    pictures: "105 of industrial sites (doi 10.5281/zenodo.11235637)",
    model: "U-Net++, ResNet50",
    figure: "IoU 0.879, F1 0.933",
    readIn: "readme of its code",
  },
  {
    pictures: "a corrosion set (Appl. Sci. 12(18) 9095)",
    model: "light residual network, 2.41; 8.25 MB",
    figure: "mean IoU 75.64; 79.06 %",
    readIn: "abstract",
  },
  {
    pictures: "a public set, sliced (2024)",
    model: "SegFormer, 3.72 MB",
    figure: "mean IoU 66.20 %",
    readIn: "abstract",
  },
  {
    pictures: "a public set (Appl. Sci. 14(21) 9900)",
    model: "MCD-Net",
    figure: "F1 84.53 %",
    readIn: "abstract",
  },
];

type Compared = { iou: number | null; errorPoints: number; gradesApart: number };

export type Interval = { value: number; lower: number; upper: number };

/** Ours less the fixed rule's, with 95 % over pictures drawn again, pair by pair: mean IoU, mean area error, percent within one grade. */
export function pairedDifference(
  ours: readonly Compared[],
  rule: readonly Compared[],
): { iou: Interval | null; errorPoints: Interval | null; withinOneGradePercent: Interval | null } {
  const rusted = ours.flatMap((one, at) => (one.iou === null ? [] : [one.iou - rule[at]!.iou!]));
  const near = ({ gradesApart }: Compared) => (gradesApart <= 1 ? 100 : 0);
  return {
    iou: drawnAgain(rusted, mean),
    errorPoints: drawnAgain(
      ours.map((one, at) => one.errorPoints - rule[at]!.errorPoints),
      mean,
    ),
    withinOneGradePercent: drawnAgain(
      ours.map((one, at) => near(one) - near(rule[at]!)),
      mean,
    ),
  };
}

const draws = 10_000;

/** A statistic of as many values and where 95 % of it lie when they are drawn again; null for fewer than two. */
export function drawnAgain<T>(values: readonly T[], statistic: (of: readonly T[]) => number): Interval | null {
  if (values.length < 2) return null;
  const random = seededRandom(1);
  const again = Float64Array.from({ length: draws }, () =>
    statistic(values.map(() => values[random.below(values.length)]!)),
  ).sort();
  return {
    value: statistic(values),
    lower: again[Math.floor(0.025 * draws)]!,
    upper: again[Math.floor(0.975 * draws)]!,
  };
}

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
