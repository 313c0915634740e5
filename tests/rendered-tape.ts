/**
 * A tape test that never was: a painted coupon cut by hand, photographed before and after the pull by a tilted phone in uneven
 * light. How much came off is known to the cell.
 */
import { type SeededRandom, seededRandom } from "../src/core/numeric/random.ts";
import type { CornersPx } from "../src/core/vision/coupon-plane.ts";
import { homographyOf, inverted, mapped, type Point } from "../src/core/vision/homography.ts";
import { linearLight } from "../src/core/vision/lab-image.ts";
import type { RgbImage } from "../src/core/vision/raster.ts";
import { type CutLine, type CutPattern, patternSize, plannedCuts } from "../src/core/vision/tape-cuts.ts";
import type { TapeFrame } from "../src/core/vision/tape-frame.ts";
import { type XRemoval, xRemoval } from "../src/core/vision/tape-measure.ts";
import { smoothNoise } from "../src/server/demo/smooth-noise.ts";

export const primers = { "red oxide": [122, 58, 44], grey: [118, 122, 126] } as const;
export const substrates = { "bare steel": [158, 160, 164], phosphate: [66, 66, 68] } as const;

export type XLoss = "none" | "trace" | "jagged" | "mostOfX" | "beyondX";
export type TapeScene = {
  seed: number;
  pattern: CutPattern;
  primer: keyof typeof primers;
  substrate: keyof typeof substrates;
  /** Lattice: percent of its area; X: what came off, how wide to either side where jagged, how far past its ends where whole (mm). */
  loss: { percent: number } | { x: XLoss; jagMm: number; pastEndsMm?: number };
  tiltDeg: number;
  /** Change of light across the picture. */
  uneven: number;
  /** Size of the picture; its scale follows. */
  widthPx?: number;
  blurPx?: number;
};

export type RenderedTape = {
  before: { photo: RgbImage; cornersPx: CornersPx };
  after: { photo: RgbImage; cornersPx: CornersPx };
  /** Percent of the lattice, or of the band of 3.2 mm along the X. */
  removedPercent: number;
  /** What a ruler would find on the plane itself; null of a lattice. */
  x: XRemoval | null;
};

/** The painted plane round the cut as it is, to be laid under a camera: sRGB before and after, and where its four corners lie. */
export type TapePlane = {
  sizeMm: { lengthMm: number; widthMm: number };
  width: number;
  height: number;
  before: Float32Array;
  after: Float32Array;
  /** As shares of the plane. */
  corners: Point[];
  removedPercent: number;
};

const cellsPerMm = 20;
const marginMm = 9;

export function renderTape(scene: TapeScene): RenderedTape {
  const random = seededRandom(scene.seed);
  const size = patternSize(scene.pattern);
  const [widthMm, heightMm] = [size.lengthMm + 2 * marginMm, size.widthMm + 2 * marginMm];
  const plane = { width: Math.round(widthMm * cellsPerMm), height: Math.round(heightMm * cellsPerMm) };
  const cuts = plannedCuts(scene.pattern).map((cut) => byHand(cut, random, scene.pattern));
  const field = fieldOf(plane, cuts);
  const { gone, percent } = removal(scene, random, plane, field, size);
  const before = surface(scene, random, plane, field, null);
  const after = surface(scene, random, plane, field, gone);
  return {
    before: photographed(scene, random, before, plane, cuts),
    after: photographed(scene, random, after, plane, cuts),
    removedPercent: percent,
    x: scene.pattern.form === "x-cut" ? xRemoval(frameOf(plane), gone, [cuts[0]!, cuts[1]!]) : null,
  };
}

const frameOf = ({ width, height }: Plane): TapeFrame => ({
  image: { widthPx: width, heightPx: height, rgb: new Uint8Array(0) },
  pxPerMm: cellsPerMm,
  extent: { leftMm: -marginMm, topMm: -marginMm, widthMm: width / cellsPerMm, heightMm: height / cellsPerMm },
});

export function tapePlane(scene: TapeScene): TapePlane {
  const random = seededRandom(scene.seed);
  const size = patternSize(scene.pattern);
  const sizeMm = { lengthMm: size.lengthMm + 2 * marginMm, widthMm: size.widthMm + 2 * marginMm };
  const plane = { width: Math.round(sizeMm.lengthMm * cellsPerMm), height: Math.round(sizeMm.widthMm * cellsPerMm) };
  const cuts = plannedCuts(scene.pattern).map((cut) => byHand(cut, random, scene.pattern));
  const field = fieldOf(plane, cuts);
  const { gone, percent } = removal(scene, random, plane, field, size);
  const share = ([x, y]: Point): Point => [(x + marginMm) / sizeMm.lengthMm, (y + marginMm) / sizeMm.widthMm];
  return {
    ...{ sizeMm, ...plane },
    before: surface(scene, random, plane, field, null),
    after: surface(scene, random, plane, field, gone),
    corners: cornersOf(scene.pattern, cuts).map(share),
    removedPercent: percent,
  };
}

/** A knife along a guide: each cut a little off, and longer than the region. */
function byHand({ from, to }: CutLine, random: SeededRandom, pattern: CutPattern): CutLine {
  const wobble = pattern.form === "cross-cut" ? 0.06 * pattern.spacingMm : 0.2;
  const off = () => (random.next() * 2 - 1) * wobble;
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const normal: Point = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  const moved = ([x, y]: Point, by: number): Point => [x + normal[0] * by, y + normal[1] * by];
  return { from: moved(from, off()), to: moved(to, off()) };
}

type Plane = { width: number; height: number };
/** Distance to the nearest cut (mm), which cut, how far along it (0 to 1). */
type Field = { off: Float32Array; along: Float32Array; nearest: Uint8Array };

function fieldOf(plane: Plane, cuts: readonly CutLine[]): Field {
  const cells = plane.width * plane.height;
  const field = {
    off: new Float32Array(cells).fill(99),
    along: new Float32Array(cells),
    nearest: new Uint8Array(cells),
  };
  for (let at = 0; at < cells; at++) {
    const [x, y] = mmOf(plane, at);
    for (const [index, { from, to }] of cuts.entries()) {
      const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
      const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
      const along = (ux * (x - from[0]) + uy * (y - from[1])) / length;
      const off = Math.abs(ux * (y - from[1]) - uy * (x - from[0]));
      if (along * length < -3.5 || along * length > length + 3.5 || off >= field.off[at]!) continue;
      field.off[at] = off;
      field.along[at] = along;
      field.nearest[at] = index;
    }
  }
  return field;
}

const mmOf = ({ width }: Plane, at: number): Point => [
  ((at % width) + 0.5) / cellsPerMm - marginMm,
  (Math.floor(at / width) + 0.5) / cellsPerMm - marginMm,
];

function removal(
  scene: TapeScene,
  random: SeededRandom,
  plane: Plane,
  { off, along }: Field,
  size: { lengthMm: number; widthMm: number },
): { gone: Uint8Array; percent: number } {
  const cells = plane.width * plane.height;
  const raster = { width: plane.width, height: plane.height };
  const coarse = smoothNoise(random, raster, { gridX: 1.3 * cellsPerMm, gridY: 1.3 * cellsPerMm });
  const fine = smoothNoise(random, raster, { gridX: 0.3 * cellsPerMm, gridY: 0.3 * cellsPerMm });
  const gone = new Uint8Array(cells);
  const inRegion = (at: number) => {
    const [x, y] = mmOf(plane, at);
    return x > 0 && x < size.lengthMm && y > 0 && y < size.widthMm;
  };
  const { loss } = scene;
  if ("percent" in loss) {
    const region: number[] = [];
    for (let at = 0; at < cells; at++) if (inRegion(at)) region.push(at);
    const onset = (at: number) => off[at]! / 1.5 + 0.9 * coarse[at]! + 0.15 * fine[at]!;
    const order = region.map(onset).sort((a, b) => a - b);
    const many = Math.round((loss.percent / 100) * region.length);
    const limit = many === 0 ? Number.NEGATIVE_INFINITY : order[many - 1]!;
    for (const at of region) if (onset(at) <= limit) gone[at] = 1;
    return { gone, percent: (100 * many) / region.length };
  }
  for (let at = 0; at < cells; at++) {
    const ragged = 0.78 + 0.22 * coarse[at]! + 0.06 * fine[at]!;
    const onCut = along[at]! > 0.02 && along[at]! < 0.98;
    const [x, y] = mmOf(plane, at);
    const outside = Math.max(-x, x - size.lengthMm, -y, y - size.widthMm);
    if (loss.x === "trace") gone[at] = onCut && coarse[at]! > 0.62 && off[at]! < 0.9 * (coarse[at]! - 0.5) ? 1 : 0;
    if (loss.x === "jagged") gone[at] = onCut && off[at]! < loss.jagMm * ragged ? 1 : 0;
    if (loss.x === "mostOfX")
      gone[at] = outside < (loss.pastEndsMm ?? -0.8) + 0.5 * coarse[at]! && coarse[at]! > -0.85 ? 1 : 0;
    if (loss.x === "beyondX") gone[at] = outside < 1.6 + 0.8 * coarse[at]! ? 1 : 0;
  }
  let [all, removed] = [0, 0];
  for (let at = 0; at < cells; at++)
    if (off[at]! <= 3.2 && along[at]! >= 0 && along[at]! <= 1) {
      all++;
      removed += gone[at]!;
    }
  return { gone, percent: (100 * removed) / all };
}

/** sRGB of the plane. A cut shows bright metal with a dark burr; steel is brushed, paint has a fine peel. */
function surface(
  { primer, substrate }: TapeScene,
  random: SeededRandom,
  plane: Plane,
  { off }: Field,
  gone: Uint8Array | null,
): Float32Array {
  const raster = { width: plane.width, height: plane.height };
  const peel = smoothNoise(random, raster, { gridX: 8, gridY: 8 });
  const cloud = smoothNoise(random, raster, { gridX: 150, gridY: 150 });
  const brushed = smoothNoise(random, raster, { gridX: 120, gridY: 3 });
  const crystal = smoothNoise(random, raster, { gridX: 3, gridY: 3 });
  const out = new Float32Array(plane.width * plane.height * 3);
  for (let at = 0; at < off.length; at++) {
    const bare = gone?.[at] === 1;
    const texture = bare
      ? substrate === "bare steel"
        ? 11 * brushed[at]! + 3 * crystal[at]!
        : 7 * crystal[at]! + 3 * cloud[at]!
      : 3 * peel[at]! + 2 * cloud[at]!;
    const colour = bare ? substrates[substrate] : primers[primer];
    const inCut = off[at]! < 0.07;
    const burr = !bare && off[at]! >= 0.07 && off[at]! < 0.12 ? -22 : 0;
    for (let channel = 0; channel < 3; channel++)
      out[at * 3 + channel] = inCut ? 186 + 12 * crystal[at]! : colour[channel]! + texture + burr;
  }
  return out;
}

/** A phone over it: its own place, tilt and light for each picture. Corners as a finger sets them are the caller's. */
function photographed(
  scene: TapeScene,
  random: SeededRandom,
  colours: Float32Array,
  plane: Plane,
  cuts: readonly CutLine[],
): { photo: RgbImage; cornersPx: CornersPx } {
  const widthPx = scene.widthPx ?? 640;
  const [planeWidthMm, planeHeightMm] = [plane.width / cellsPerMm, plane.height / cellsPerMm];
  const heightPx = Math.round((widthPx * planeHeightMm) / planeWidthMm);
  const toPicture = view(scene.tiltDeg, random, { planeWidthMm, planeHeightMm, widthPx, heightPx });
  const back = inverted(toPicture);
  const lit = colours.map((value) => linearLight[Math.max(0, Math.min(255, Math.round(value)))]!);
  const linear = new Float32Array(widthPx * heightPx * 3);
  const exposure = 0.85 + 0.3 * random.next();
  const [gx, gy] = [scene.uneven * (random.next() * 2 - 1), scene.uneven * (random.next() * 2 - 1)];
  const tint = [1, 0.94 + 0.08 * random.next(), 0.86 + 0.16 * random.next()];
  for (let y = 0, at = 0; y < heightPx; y++)
    for (let x = 0; x < widthPx; x++, at += 3)
      for (let sub = 0; sub < 4; sub++) {
        const [u, v] = mapped(back, [x + (sub & 1 ? 0.75 : 0.25), y + (sub & 2 ? 0.75 : 0.25)]);
        const column = Math.floor((u + marginMm) * cellsPerMm);
        const row = Math.floor((v + marginMm) * cellsPerMm);
        const onPlane = column >= 0 && row >= 0 && column < plane.width && row < plane.height;
        const cell = (row * plane.width + column) * 3;
        const bright = (exposure * (1 + gx * (x / widthPx - 0.5) + gy * (y / heightPx - 0.5))) / 4;
        for (let channel = 0; channel < 3; channel++)
          linear[at + channel]! += (onPlane ? lit[cell + channel]! : 0.3) * bright * tint[channel]!;
      }
  const soft = blurred(linear, widthPx, heightPx, scene.blurPx ?? 0.8);
  const rgb = Uint8Array.from(soft, (light) => {
    const share = Math.min(1, Math.max(0, light));
    const value = 255 * (share <= 0.0031308 ? share * 12.92 : 1.055 * share ** (1 / 2.4) - 0.055);
    return Math.max(0, Math.min(255, Math.round(value + 5 * (random.next() + random.next() - 1))));
  });
  const [a, b, c, d] = cornersOf(scene.pattern, cuts).map((corner) => mapped(toPicture, corner));
  return { photo: { widthPx, heightPx, rgb }, cornersPx: [a!, b!, c!, d!] };
}

/** Of the lattice where its outer cuts cross; of the X, its ends. */
function cornersOf(pattern: CutPattern, cuts: readonly CutLine[]): Point[] {
  if (pattern.form === "x-cut") return [cuts[0]!.from, cuts[1]!.from, cuts[0]!.to, cuts[1]!.to];
  const each = cuts.length / 2;
  return [
    crossing(cuts[0]!, cuts[each]!),
    crossing(cuts[each - 1]!, cuts[each]!),
    crossing(cuts[each - 1]!, cuts[2 * each - 1]!),
    crossing(cuts[0]!, cuts[2 * each - 1]!),
  ];
}

function crossing(one: CutLine, other: CutLine): Point {
  const [dx, dy] = [one.to[0] - one.from[0], one.to[1] - one.from[1]];
  const [ex, ey] = [other.to[0] - other.from[0], other.to[1] - other.from[1]];
  const t = ((other.from[0] - one.from[0]) * ey - (other.from[1] - one.from[1]) * ex) / (dx * ey - dy * ex);
  return [one.from[0] + dx * t, one.from[1] + dy * t];
}

function view(
  tiltDeg: number,
  random: SeededRandom,
  frame: { planeWidthMm: number; planeHeightMm: number; widthPx: number; heightPx: number },
) {
  const { planeWidthMm, planeHeightMm, widthPx, heightPx } = frame;
  const tilt = (tiltDeg * Math.PI) / 180;
  const towards = random.next() * 2 * Math.PI;
  const turn = (random.next() - 0.5) * 0.2;
  const focal = 0.75 * widthPx * 1.25;
  const distance = (focal * planeWidthMm) / (0.94 * widthPx);
  const axis = [Math.cos(towards), Math.sin(towards)] as const;
  const corners: Point[] = [
    [-marginMm, -marginMm],
    [planeWidthMm - marginMm, -marginMm],
    [planeWidthMm - marginMm, planeHeightMm - marginMm],
    [-marginMm, planeHeightMm - marginMm],
  ];
  const seen = corners.map(([x, y]): Point => {
    const [px, py] = [x + marginMm - planeWidthMm / 2, y + marginMm - planeHeightMm / 2];
    const [rx, ry] = [px * Math.cos(turn) - py * Math.sin(turn), px * Math.sin(turn) + py * Math.cos(turn)];
    const lean = rx * axis[0] + ry * axis[1];
    const flat = lean * (Math.cos(tilt) - 1);
    const z = distance + lean * Math.sin(tilt);
    return [widthPx / 2 + (focal * (rx + axis[0] * flat)) / z, heightPx / 2 + (focal * (ry + axis[1] * flat)) / z];
  });
  return homographyOf(corners, seen);
}

function blurred(from: Float32Array, widthPx: number, heightPx: number, sigma: number): Float32Array {
  const reach = Math.ceil(2.5 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, at) => Math.exp(-((at - reach) ** 2) / (2 * sigma ** 2)));
  const total = weights.reduce((sum, one) => sum + one, 0);
  const pass = (source: Float32Array, along: boolean) => {
    const out = new Float32Array(source.length);
    for (let y = 0, at = 0; y < heightPx; y++)
      for (let x = 0; x < widthPx; x++)
        for (let channel = 0; channel < 3; channel++, at++) {
          let sum = 0;
          for (let tap = -reach; tap <= reach; tap++) {
            const nx = along ? Math.min(widthPx - 1, Math.max(0, x + tap)) : x;
            const ny = along ? y : Math.min(heightPx - 1, Math.max(0, y + tap));
            sum += weights[tap + reach]! * source[(ny * widthPx + nx) * 3 + channel]!;
          }
          out[at] = sum / total;
        }
    return out;
  };
  return pass(pass(from, true), false);
}

/** Corners as a finger with a lens sets them: each off by up to so many px. */
export function asSetByFinger(corners: CornersPx, random: SeededRandom, offPx: number): CornersPx {
  const off = () => (random.next() * 2 - 1) * offPx;
  const [a, b, c, d] = corners.map(([x, y]) => [x + off(), y + off()] as const);
  return [a!, b!, c!, d!];
}
