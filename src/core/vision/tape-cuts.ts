/**
 * The cuts of a tape test in a frame: where they should lie, and where they do.
 *
 * A cut, and the edge of a flake along it, both change the picture within a fraction of a mm; along an X what flaked lies to both
 * sides of the cut. First the whole pattern is shifted, turned and scaled until it lies on the ridges and nothing lies where the next
 * cut would be; then each place along each cut looks for its own ridge, and one perspective is fitted to all by least squares.
 * An X is laid by what flaked along it, or by its cuts' own lines where that fails.
 *
 * Units    mm
 * Source   our own
 * Status   computed
 */
import { solveLinear } from "../numeric/solve-linear.ts";
import { boxMean } from "./box-mean.ts";
import type { SizeMm } from "./coupon-plane.ts";
import { composed, type Homography, mapped, type Point } from "./homography.ts";
import { labImage } from "./lab-image.ts";
import type { TapeExtent, TapeFrame } from "./tape-frame.ts";

export type CutLine = { from: Point; to: Point };

/** Lattice: as many cuts each way, first those across x (running down), then those across y. X: two, crossing. */
export type CutPattern = { form: "cross-cut"; cuts: number; spacingMm: number } | { form: "x-cut"; sizeMm: SizeMm };

/** The rectangle whose corners are marked: the lattice's outer cuts, or the four ends of the X; mm. */
export function patternSize(pattern: CutPattern): SizeMm {
  if (pattern.form === "x-cut") return pattern.sizeMm;
  const side = (pattern.cuts - 1) * pattern.spacingMm;
  return { lengthMm: side, widthMm: side };
}

/** The cuts as they should lie, mm of the cut region. */
export function plannedCuts(pattern: CutPattern): CutLine[] {
  const { lengthMm, widthMm } = patternSize(pattern);
  if (pattern.form === "x-cut")
    return [
      { from: [0, 0], to: [lengthMm, widthMm] },
      { from: [lengthMm, 0], to: [0, widthMm] },
    ];
  const places = Array.from({ length: pattern.cuts }, (_, at) => at * pattern.spacingMm);
  return [
    ...places.map((x): CutLine => ({ from: [x, 0], to: [x, widthMm] })),
    ...places.map((y): CutLine => ({ from: [0, y], to: [lengthMm, y] })),
  ];
}

type Ridges = { extent: TapeExtent; pxPerMm: number; widthPx: number; heightPx: number; spread: Float32Array };

const spreadRadiusMm = 0.15;
const bandRadiusMm = 0.8;

/** "wide": flakes and all, for an X; "thin": the cuts' own lines. */
function ridgesOf(frame: TapeFrame, kind: "wide" | "thin"): Ridges {
  const { image, extent, pxPerMm } = frame;
  const { widthPx, heightPx } = image;
  const lab = labImage(image);
  const planes = [lab.lightness, lab.a, lab.b];
  const spread = kind === "wide" ? bands(planes, frame) : spreads(planes, frame);
  // The root tames one bright burr against a long faint cut.
  return { extent, pxPerMm, widthPx, heightPx, spread: spread.map((value) => Math.sqrt(value)) };
}

/** Lattice: the local spread of colour, high on cuts and on the edges of flakes, which follow cuts. */
function spreads(planes: readonly Float32Array[], { image: { widthPx, heightPx }, pxPerMm }: TapeFrame): Float32Array {
  const radius = Math.max(1, Math.round(spreadRadiusMm * pxPerMm));
  const sum = new Float32Array(widthPx * heightPx);
  for (const plane of planes) {
    const mean = boxMean(plane, widthPx, heightPx, radius);
    const squares = plane.map((value) => value * value);
    const square = boxMean(squares, widthPx, heightPx, radius);
    for (let at = 0; at < sum.length; at++) sum[at]! += Math.max(0, square[at]! - mean[at]! ** 2);
  }
  return sum.map((value) => Math.sqrt(value));
}

/** X: what differs from the paint, smeared as wide as flakes are: highest in the middle of a cut and of what flaked along it. */
function bands(planes: readonly Float32Array[], { image: { widthPx, heightPx }, pxPerMm }: TapeFrame): Float32Array {
  const rim = Math.round(1.5 * pxPerMm);
  const onRim = (at: number) => {
    const x = at % widthPx;
    const y = (at - x) / widthPx;
    return Math.min(x, y, widthPx - 1 - x, heightPx - 1 - y) < rim;
  };
  const paint = planes.map((plane) => {
    const own = plane.filter((_, at) => onRim(at)).sort();
    return own[own.length >> 1]!;
  });
  const off = Float32Array.from({ length: widthPx * heightPx }, (_, at) =>
    Math.hypot(...planes.map((plane, channel) => plane[at]! - paint[channel]!)),
  );
  return boxMean(off, widthPx, heightPx, Math.round(bandRadiusMm * pxPerMm));
}

function spreadAt({ extent, pxPerMm, widthPx, heightPx, spread }: Ridges, [xMm, yMm]: Point): number {
  const x = Math.floor((xMm - extent.leftMm) * pxPerMm);
  const y = Math.floor((yMm - extent.topMm) * pxPerMm);
  return x < 0 || y < 0 || x >= widthPx || y >= heightPx ? 0 : spread[y * widthPx + x]!;
}

const stepMm = 0.5;

type Place = { at: Point; normal: Point };

function placesAlong({ from, to }: CutLine): Place[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const along: Point = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const count = Math.max(4, Math.round(length / stepMm));
  return Array.from({ length: count }, (_, at) => {
    const far = (length * (at + 0.5)) / count;
    return { at: [from[0] + along[0] * far, from[1] + along[1] * far], normal: [-along[1], along[0]] };
  });
}

/** A knife runs on beyond the lattice, where tape seldom takes anything off: there a cut is seen best. mm. */
const runsOnMm = 2.5;

/** The cut as far as its own line is looked for. */
function soughtAlong({ from, to }: CutLine, pattern: CutPattern): CutLine {
  if (pattern.form === "x-cut") return { from, to };
  const share = runsOnMm / Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [dx, dy] = [(to[0] - from[0]) * share, (to[1] - from[1]) * share];
  return { from: [from[0] - dx, from[1] - dy], to: [to[0] + dx, to[1] + dy] };
}

const shifted = ({ at, normal }: Place, byMm: number): Point => [at[0] + normal[0] * byMm, at[1] + normal[1] * byMm];

/** Where nothing should lie: between cuts, and where a further cut of the lattice would. */
function emptyPlaces(cuts: readonly CutLine[], pattern: CutPattern): Point[] {
  if (pattern.form === "x-cut")
    return cuts.flatMap((cut) => placesAlong(cut).flatMap((place) => [shifted(place, 2.5), shifted(place, -2.5)]));
  const { spacingMm, cuts: each } = pattern;
  const outer = [0, each - 1, each, 2 * each - 1];
  return outer.flatMap((index, at) => {
    // Normals of cuts that run down point to smaller x, of those across to larger y.
    const outward = (at === 0 ? 1 : at === 1 ? -1 : at === 2 ? -1 : 1) * spacingMm;
    return placesAlong(cuts[index]!).map((place) => shifted(place, outward));
  });
}

/** Without flakes to lead it there, the way to the cuts' own lines is so much farther, mm. */
const linesFirstMm = [0.8, 0.6];

/** What an X is laid by first: where a whole field came off, only the cuts' own lines show where they lie. */
export type XLaidBy = "flakes" | "lines";

/** From the pattern's mm to the frame's mm: where the cuts really lie. */
export function placedCuts(
  frame: TapeFrame,
  cuts: readonly CutLine[],
  pattern: CutPattern,
  by: XLaidBy = "flakes",
): Homography {
  const sought = cuts.map((cut) => soughtAlong(cut, pattern));
  const size = patternSize(pattern);
  const middle: Point = [size.lengthMm / 2, size.widthMm / 2];
  const thin = ridgesOf(frame, "thin");
  const wide = pattern.form === "x-cut" ? ridgesOf(frame, "wide") : thin;
  const halfMm = size.lengthMm / 2;
  const along = (map: Homography, lines: readonly CutLine[], ridges: Ridges, reachMm: number) =>
    refined(ridges, lines, map, { middle, halfMm, reachMm });
  const onLines = (firstMm: readonly number[], start: Homography) =>
    [...firstMm, ...reachesMm(pattern, "thin")].reduce((map, reachMm) => along(map, cuts, thin, reachMm), start);
  const settled = (start: Homography) =>
    onLines(
      [],
      reachesMm(pattern, "wide").reduce((map, reachMm) => along(map, cuts, wide, reachMm), start),
    );
  if (pattern.form === "x-cut")
    return by === "flakes"
      ? settled(bestSimilarity(wide, cuts, pattern, middle))
      : onLines(linesFirstMm, bestSimilarity(thin, cuts, pattern, middle));
  const off = emptyPlaces(sought, pattern);
  const clarity = (map: Homography) => meanRidge(thin, placesOn(sought), map) - 0.6 * meanRidge(thin, off, map);
  // Where much came off the cuts alone mislead by a whole spacing; where they run short, what lies beyond the lattice does.
  const [one, other] = [cuts, sought].map((lines) => {
    const start = settled(bestSimilarity(thin, lines, pattern, middle));
    return wholeCutPassesMm.reduce((map, reachMm) => {
      // A step that leads off the cuts is not taken: far out a stray has a long lever.
      const next = along(map, sought, thin, reachMm);
      return clarity(map) > 0 && clarity(next) > 0.97 * clarity(map) ? next : map;
    }, start);
  }) as [Homography, Homography];
  return clarity(other) > clarity(one) ? other : one;
}

/** The last passes go over the cuts as far as they run on, mm; a ridge is half as wide, and seen less far it loses its sides. */
const wholeCutPassesMm = [0.4, 0.4, 0.4];

const placesOn = (cuts: readonly CutLine[]): Point[] => cuts.flatMap((cut) => placesAlong(cut).map(({ at }) => at));

const meanRidge = (ridges: Ridges, points: readonly Point[], map: Homography): number =>
  points.reduce((sum, point) => sum + spreadAt(ridges, mapped(map, point)), 0) / points.length;

/** How far each pass looks to either side of a cut, mm: never as far as the next cut. */
function reachesMm(pattern: CutPattern, kind: "wide" | "thin"): number[] {
  if (pattern.form === "x-cut") return kind === "wide" ? [1.5, 1.2, 0.9] : [0.4, 0.3];
  const { spacingMm } = pattern;
  const shares = kind === "wide" ? [0.45, 0.45] : [0.4, 0.3, 0.25];
  return shares.map((share) => Math.min(0.7, Math.max(0.2, share * spacingMm)));
}

/** A finger with a lens misses by about so much, mm; along an X there are more false ridges, so it is looked for less far. */
const searchMm = { "cross-cut": 1.2, "x-cut": 0.8 } as const;
/** Two crossing lines look alike at any scale: only the rings on their ends tell it. */
const searchScales = { "cross-cut": [0.96, 1, 1.04], "x-cut": [1] } as const;

function bestSimilarity(ridges: Ridges, cuts: readonly CutLine[], pattern: CutPattern, middle: Point): Homography {
  const on = placesOn(cuts);
  const off = emptyPlaces(cuts, pattern);
  let best = similarity(middle, { turn: 0, scale: 1, x: 0, y: 0 });
  let bestScore = Number.NEGATIVE_INFINITY;
  const attempt = (turn: number, scale: number, x: number, y: number) => {
    const map = similarity(middle, { turn, scale, x, y });
    const score = meanRidge(ridges, on, map) - 0.6 * meanRidge(ridges, off, map);
    if (score > bestScore) [best, bestScore] = [map, score];
  };
  const steps = Math.round(searchMm[pattern.form] / 0.2);
  for (const turn of [-0.04, 0, 0.04])
    for (const scale of searchScales[pattern.form])
      for (let x = -steps; x <= steps; x++)
        for (let y = -steps; y <= steps; y++) attempt(turn, scale, x * 0.2, y * 0.2);
  return best;
}

function similarity(
  [mx, my]: Point,
  { turn, scale, x, y }: { turn: number; scale: number; x: number; y: number },
): Homography {
  const [c, s] = [scale * Math.cos(turn), scale * Math.sin(turn)];
  return [c, -s, mx + x - c * mx + s * my, s, c, my + y - s * mx - c * my, 0, 0, 1];
}

/** How firmly the eight numbers of the correction hold to no correction, perspective the most. */
const ridge = [0.02, 0.02, 0.002, 0.02, 0.02, 0.002, 0.3, 0.3];

function refined(
  ridges: Ridges,
  cuts: readonly CutLine[],
  map: Homography,
  { middle, halfMm, reachMm }: { middle: Point; halfMm: number; reachMm: number },
): Homography {
  const found = cuts.flatMap((cut) => {
    const moved = { from: mapped(map, cut.from), to: mapped(map, cut.to) };
    return placesAlong(moved).flatMap((place) => {
      const ridgeAt = nearestRidge(ridges, place, reachMm);
      return ridgeAt === null ? [] : [{ ...place, ...ridgeAt }];
    });
  });
  if (found.length === 0) return map;
  const matrix = Array.from({ length: 8 }, (_, at) =>
    Array.from({ length: 8 }, (_, other) => (at === other ? ridge[at]! * found.length * 0.05 : 0)),
  );
  const right = new Array<number>(8).fill(0);
  const heaviest = Math.max(...found.map(({ weight }) => weight), 1e-9);
  for (const { at, normal, offMm, weight } of found) {
    const x = (at[0] - middle[0]) / halfMm;
    const y = (at[1] - middle[1]) / halfMm;
    const [nx, ny] = normal;
    const inward = nx * x + ny * y;
    const row = [nx * x, nx * y, nx, ny * x, ny * y, ny, -x * inward, -y * inward];
    // Far strays count less: a flake's edge beside the cut, a scratch.
    const trust = (weight / heaviest) * Math.min(1, 0.12 / Math.max(0.12, Math.abs(offMm)));
    for (let i = 0; i < 8; i++) {
      right[i]! += trust * row[i]! * (offMm / halfMm);
      for (let j = 0; j < 8; j++) matrix[i]![j]! += trust * row[i]! * row[j]!;
    }
  }
  const [a, b, c, d, e, f, g, h] = solveLinear(matrix, right) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const there: Homography = [1 / halfMm, 0, -middle[0] / halfMm, 0, 1 / halfMm, -middle[1] / halfMm, 0, 0, 1];
  const back: Homography = [halfMm, 0, middle[0], 0, halfMm, middle[1], 0, 0, 1];
  return composed(back, composed([1 + a, b, c, d, 1 + e, f, g, h, 1], composed(there, map)));
}

const profileStepMm = 0.05;

/** The middle of the ridge near a place, by its weight above the valley; null where nothing rises. */
function nearestRidge(ridges: Ridges, place: Place, reachMm: number): { offMm: number; weight: number } | null {
  const half = Math.round(reachMm / profileStepMm);
  const values = Array.from({ length: 2 * half + 1 }, (_, at) =>
    spreadAt(ridges, shifted(place, (at - half) * profileStepMm)),
  );
  const valley = Math.min(...values);
  const top = Math.max(...values);
  if (top === 0 || top - valley < 0.25 * top) return null;
  const level = valley + 0.5 * (top - valley);
  let [sum, moment] = [0, 0];
  for (const [at, value] of values.entries()) {
    const above = Math.max(0, value - level);
    sum += above;
    moment += above * (at - half) * profileStepMm;
  }
  return { offMm: moment / sum, weight: top - valley };
}

/** Each cut moved and turned by itself onto its own ridge: a hand keeps no spacing exactly. mm of the frame. */
export function ownCuts(frame: TapeFrame, cuts: readonly CutLine[], pattern: CutPattern): CutLine[] {
  const ridges = ridgesOf(frame, "thin");
  const reachMm = 0.4;
  return cuts.map((cut) => {
    const length = Math.hypot(cut.to[0] - cut.from[0], cut.to[1] - cut.from[1]);
    const sought = soughtAlong(cut, pattern);
    const longer = Math.hypot(sought.to[0] - sought.from[0], sought.to[1] - sought.from[1]) / length;
    const places = placesAlong(sought);
    const offs = places.map((place) => nearestRidge(ridges, place, reachMm));
    let [n, st, stt, sd, std] = [1e-6, 0, 1e-6, 0, 0];
    for (const [at, off] of offs.entries()) {
      if (off === null) continue;
      const t = longer * ((at + 0.5) / places.length - 0.5);
      n += off.weight;
      st += off.weight * t;
      stt += off.weight * t * t;
      sd += off.weight * off.offMm;
      std += off.weight * t * off.offMm;
    }
    const det = n * stt - st * st;
    const shift = det > 1e-9 ? (sd * stt - st * std) / det : 0;
    const turn = det > 1e-9 ? (n * std - st * sd) / det : 0;
    const normal: Point = [-(cut.to[1] - cut.from[1]) / length, (cut.to[0] - cut.from[0]) / length];
    const moved = ([x, y]: Point, byMm: number): Point => [x + normal[0] * byMm, y + normal[1] * byMm];
    return { from: moved(cut.from, shift - turn / 2), to: moved(cut.to, shift + turn / 2) };
  });
}

/** An X of two cuts of 40 mm whose neighbouring ends lie 13 mm apart: they cross at 38°, between the 30 and 45° that are asked for. */
export const usualXMm: SizeMm = { lengthMm: 37.8, widthMm: 13 };
