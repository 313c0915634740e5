/**
 * A coupon that never existed: its bare look and, for every point of it, when that point rusts.
 *
 * The order in which points rust is fixed by the seed, so a later look always holds all the rust of an earlier one, and any
 * wanted percentage is met exactly by taking that many points from the front of the order.
 */
import { InputError, requirePositive } from "../../core/input-error.ts";
import { type SeededRandom, seededRandom } from "../../core/numeric/random.ts";
import { type FaceRectangle, faceRectangle } from "../../core/vision/assessed-face.ts";
import type { SizeMm } from "../../core/vision/coupon-plane.ts";
import { inkedCells } from "./bitmap-letters.ts";
import { smoothNoise } from "./smooth-noise.ts";

export type SteelFinish = "phosphate dry" | "phosphate oiled" | "phosphate waxed" | "bare steel";

export type SteelPiece = {
  sizeMm: SizeMm;
  width: number;
  height: number;
  face: FaceRectangle;
  /** sRGB of the unrusted surface, three values per cell. */
  rgb: Float32Array;
  /** Smaller rusts earlier; no unit. */
  onset: Float32Array;
  /** The same values sorted, of face and of edge band. */
  faceOrder: Float32Array;
  edgeOrder: Float32Array;
  /** Brightness of rust and strength of run-off, -1 to 1. */
  mottle: Float32Array;
};

const cellsPerMm = 5;

/** Makes a coupon from a seed. `number` is stamped on it; `sizeMm` and the edge band in mm. */
export function steelPiece(of: {
  seed: number;
  number: string;
  finish: SteelFinish;
  sizeMm: SizeMm;
  edgeBandMm: number;
}): SteelPiece {
  requirePositive("sizeMm.lengthMm", of.sizeMm.lengthMm);
  requirePositive("sizeMm.widthMm", of.sizeMm.widthMm);
  const width = Math.round(of.sizeMm.lengthMm * cellsPerMm);
  const height = Math.round(of.sizeMm.widthMm * cellsPerMm);
  if (width * height > 4_000_000) throw new InputError("sizeMm", of.sizeMm, "a coupon of at most 1100 cm²");
  const random = seededRandom(of.seed);
  const raster = { width, height };
  const face = faceRectangle({ widthPx: width, heightPx: height }, of.sizeMm, of.edgeBandMm);
  const rgb = surface(random, raster, of.finish);
  stamp(rgb, raster, face, of.number);
  const onset = onsets(random, raster);
  const [faceOrder, edgeOrder] = orders(onset, raster, face);
  const mottle = smoothNoise(random, raster, { gridX: 3, gridY: 3 });
  return { sizeMm: of.sizeMm, width, height, face, rgb, onset, faceOrder, edgeOrder, mottle };
}

type Raster = { width: number; height: number };

/** Mean sRGB by finish, near the L*, a*, b* that such surfaces are said to have; grain and cloud in sRGB steps. */
const looks = {
  "phosphate dry": { rgb: [74, 74, 75], grain: 9, cloud: 5, streak: 0, sheen: 0 },
  "phosphate oiled": { rgb: [47, 47, 48], grain: 5, cloud: 4, streak: 0, sheen: 22 },
  "phosphate waxed": { rgb: [60, 60, 60], grain: 5, cloud: 12, streak: 0, sheen: 9 },
  "bare steel": { rgb: [152, 154, 157], grain: 4, cloud: 5, streak: 13, sheen: 16 },
} as const satisfies Record<SteelFinish, unknown>;

function surface(random: SeededRandom, raster: Raster, finish: SteelFinish): Float32Array {
  const look = looks[finish];
  const cloud = smoothNoise(random, raster, { gridX: 60, gridY: 45 });
  const crystals = smoothNoise(random, raster, { gridX: 2, gridY: 2 });
  const brushed = smoothNoise(random, raster, { gridX: 90, gridY: 1 });
  const sheenAt = random.next();
  const rgb = new Float32Array(raster.width * raster.height * 3);
  for (let y = 0, at = 0; y < raster.height; y++)
    for (let x = 0; x < raster.width; x++, at++) {
      // A lamp mirrored softly in oil, wax or metal: a slanting band.
      const across = x / raster.width + (0.35 * y) / raster.height - sheenAt;
      const sheen = look.sheen * Math.exp(-(across * across) / 0.03);
      const light = look.grain * crystals[at]! + look.cloud * cloud[at]! + look.streak * brushed[at]! + sheen;
      for (let channel = 0; channel < 3; channel++) rgb[at * 3 + channel] = look.rgb[channel]! + light;
    }
  return rgb;
}

/** Letter cells of 0.9 mm: about 6 mm high, pressed in, lit from above. */
function stamp(rgb: Float32Array, raster: Raster, face: FaceRectangle, number: string): void {
  const cell = Math.round(0.9 * cellsPerMm);
  const shade = (x: number, y: number, by: number) => {
    if (x < 0 || y < 0 || x >= raster.width || y >= raster.height) return;
    for (let channel = 0; channel < 3; channel++) rgb[(y * raster.width + x) * 3 + channel]! += by;
  };
  for (const { column, row } of inkedCells(number))
    for (let dy = 0; dy < cell; dy++)
      for (let dx = 0; dx < cell; dx++) {
        const x = face.left + 2 * cell + column * cell + dx;
        const y = face.top + 2 * cell + row * cell + dy;
        shade(x, y, -26);
        if (dy === cell - 1) shade(x, y + 1, 18);
      }
}

/** Points that hold rust seeds, their latest start and how far they spread while the rest of the face waits. */
const pitsPerCm2 = 2.4;
const spreadMm = 7;

function onsets(random: SeededRandom, raster: Raster): Float32Array {
  const { width, height } = raster;
  const rough = smoothNoise(random, raster, { gridX: 5, gridY: 5 });
  const fine = smoothNoise(random, raster, { gridX: 2, gridY: 2 });
  const late = smoothNoise(random, raster, { gridX: 24, gridY: 24 });
  const onset = new Float32Array(width * height);
  const nearEdge = Float64Array.from(
    { length: Math.min(width, height) },
    (_, cells) => 0.75 * Math.exp(-cells / cellsPerMm / 1.6),
  );
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++) {
      const earlier = nearEdge[Math.min(x, y, width - 1 - x, height - 1 - y)]!;
      onset[at] = 1.1 + 0.25 * late[at]! + 0.1 * rough[at]! - earlier * (1 + 0.8 * late[at]!);
    }
  const areaCm2 = (width * height) / (cellsPerMm * 10) ** 2;
  const pits = Array.from({ length: Math.round(areaCm2 * pitsPerCm2) }, () => ({
    x: random.next() * width,
    y: random.next() * height,
    // Most seeds wake late: a few spots first, then many.
    start: Math.sqrt(random.next()),
  }));
  // Where the coupon hung on its two wires, water stays and rust starts first.
  const wires = [0.22, 0.78].map((share) => ({ x: share * width, y: height - 1, start: -0.15 * random.next() }));
  const rim = (at: number) => 1 + 0.25 * late[at]! + 0.3 * rough[at]! + 0.18 * fine[at]!;
  for (const seed of [...pits, ...wires]) spread(onset, raster, seed, rim);
  return onset;
}

function spread(
  onset: Float32Array,
  { width, height }: Raster,
  seed: { x: number; y: number; start: number },
  rim: (at: number) => number,
): void {
  const reach = spreadMm * cellsPerMm * Math.max(0.1, 1.2 - seed.start);
  for (let y = Math.max(0, Math.ceil(seed.y - reach)); y < Math.min(height, seed.y + reach); y++)
    for (let x = Math.max(0, Math.ceil(seed.x - reach)); x < Math.min(width, seed.x + reach); x++) {
      const at = y * width + x;
      const farMm = Math.sqrt((x - seed.x) ** 2 + (y - seed.y) ** 2) / cellsPerMm;
      onset[at] = Math.min(onset[at]!, seed.start + (farMm * rim(at)) / spreadMm);
    }
}

function orders(onset: Float32Array, { width, height }: Raster, face: FaceRectangle): [Float32Array, Float32Array] {
  const onFace = new Float32Array((face.right - face.left) * (face.bottom - face.top));
  const onEdge = new Float32Array(width * height - onFace.length);
  let [inFace, inEdge] = [0, 0];
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++)
      if (x >= face.left && x < face.right && y >= face.top && y < face.bottom) onFace[inFace++] = onset[at]!;
      else onEdge[inEdge++] = onset[at]!;
  return [onFace.sort(), onEdge.sort()];
}
