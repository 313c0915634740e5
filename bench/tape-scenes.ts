/** The tape tests that the bench renders: one per seed, primers and substrates in turn, classes in turn, the rest by chance. */
import { type SeededRandom, seededRandom } from "../src/core/numeric/random.ts";
import type { CornersPx } from "../src/core/vision/coupon-plane.ts";
import type { RgbImage } from "../src/core/vision/raster.ts";
import { type CutPattern, usualXMm } from "../src/core/vision/tape-cuts.ts";
import type { XRemoval } from "../src/core/vision/tape-measure.ts";
import { asSetByFinger, primers, renderTape, substrates, type TapeScene, type XLoss } from "../tests/rendered-tape.ts";

export const cutPatterns = {
  lattice2: { form: "cross-cut", cuts: 6, spacingMm: 2 },
  lattice1: { form: "cross-cut", cuts: 11, spacingMm: 1 },
  x: { form: "x-cut", sizeMm: usualXMm },
  xAnywhere: { form: "x-cut", sizeMm: usualXMm },
} as const satisfies Record<string, CutPattern>;
export type BenchCut = keyof typeof cutPatterns;

/** % of the lattice in turn: nothing, then each class of D3359 up to its limits, none left out. */
const losses = [
  [0, 0],
  [0.5, 5],
  [5, 15],
  [15, 35],
  [35, 65],
  [65, 95],
] as const;
const xLosses = ["none", "trace", "narrow", "wide", "mostOfX", "beyondX"] as const;
/** mm to either side; the limit between 3A and 2A is 1.6. */
const jagsMm = { narrow: [0.7, 1.4], wide: [1.9, 3] } as const;
/** Drawn without gaps: jags up to well past the widest class, and whole fields that end anywhere about the ends of the X, mm. */
const anywhere = { jagMm: [0.3, 5], pastEndsMm: [-5, 2.5] } as const;
const mostTiltDeg = 28;
const mostUneven = 0.6;
const fingerOffPx = 8;

const between = (random: SeededRandom, [from, to]: readonly [number, number]) => from + (to - from) * random.next();

function lossOf(cut: BenchCut, turn: number, random: SeededRandom): TapeScene["loss"] {
  if (cut === "lattice1" || cut === "lattice2") return { percent: between(random, losses[turn]!) };
  if (cut === "xAnywhere")
    return turn % 2 === 0
      ? { x: "jagged", jagMm: between(random, anywhere.jagMm) }
      : { x: "mostOfX", jagMm: 0, pastEndsMm: between(random, anywhere.pastEndsMm) };
  const kind = xLosses[turn]!;
  if (kind === "narrow" || kind === "wide") return { x: "jagged", jagMm: between(random, jagsMm[kind]) };
  return { x: kind satisfies XLoss, jagMm: 0 };
}

export function tapeScene(seed: number, cut: BenchCut): TapeScene {
  const random = seededRandom(7919 * seed + 31);
  const kinds = (Object.keys(primers) as (keyof typeof primers)[]).flatMap((primer) =>
    (Object.keys(substrates) as (keyof typeof substrates)[]).map((substrate) => ({ primer, substrate })),
  );
  return {
    ...kinds[seed % kinds.length]!,
    ...{ seed, pattern: cutPatterns[cut] },
    loss: lossOf(cut, Math.floor(seed / kinds.length) % losses.length, random),
    tiltDeg: mostTiltDeg * random.next(),
    uneven: mostUneven * random.next(),
    widthPx: cutPatterns[cut].form === "x-cut" ? 820 : 600,
  };
}

export type TapePair = {
  before: { photo: RgbImage; cornersPx: CornersPx };
  after: { photo: RgbImage; cornersPx: CornersPx };
  removedPercent: number;
  x: XRemoval | null;
};

/** Both pictures, their rings set as a finger sets them. */
export function tapePair(scene: TapeScene): TapePair {
  const random = seededRandom(scene.seed + 99);
  const { before, after, removedPercent, x } = renderTape(scene);
  const ringed = ({ photo, cornersPx }: TapePair["before"]) => ({
    photo,
    cornersPx: asSetByFinger(cornersPx, random, fingerOffPx),
  });
  return { before: ringed(before), after: ringed(after), removedPercent, x };
}
