/**
 * Plates with a known area of rust, made by a seed, to train and test an eye on.
 *
 * Units    pixels; rustedPercent: % of the plate, by counting its pixels
 * Source   irregular spots over brushed steel or dark phosphate; nobody's photograph
 * Status   common practice
 */
import { InputError, requireOneOf, requireWhole } from "../input-error.ts";
import { type SeededRandom, seededRandom } from "../numeric/random.ts";
import type { RgbImage } from "../vision/raster.ts";
import { type D610Grade, d610Limits } from "./d610-grade.ts";

/** Shown about pixel for pixel on a phone, so that the least spot is still seen. */
export const platePx = { widthPx: 360, heightPx: 240 } as const;
const pixels = platePx.widthPx * platePx.heightPx;
export const plateGrounds = ["steel", "phosphate"] as const;
export type PlateGround = (typeof plateGrounds)[number];

/** What a plate is made of: the same gives the same plate everywhere. */
export type PlateRecipe = { seed: number; rustedPixels: number; ground: PlateGround };

/** How many plates a test has: two of each grade that has rust. */
export const platesOfTest = 20;
/** No plate is rustier: beyond, one area looks like another. */
const mostPercent = 60;

/**
 * The plates of one test in the order they are shown: two of each D610 grade from 9 to 0, on a logarithmic scale within
 * the grade, 0.01 to 60 % rusted. The seed is a whole number of 0 or more.
 */
export function plateSeries(seed: number): PlateRecipe[] {
  const random = seededRandom(seed);
  const grades = d610Limits.filter(({ grade }) => grade < 10).map(({ grade }) => grade);
  return random.shuffle([...grades, ...grades]).map((grade) => recipeOf(grade, random));
}

/** One plate to practise on; each of the grades is as likely. The seed is a whole number of 0 or more. */
export function practicePlate(seed: number): PlateRecipe {
  const random = seededRandom(seed);
  return recipeOf(d610Limits[1 + random.below(d610Limits.length - 1)]!.grade, random);
}

function recipeOf(grade: D610Grade, random: SeededRandom): PlateRecipe {
  const at = d610Limits.findIndex((row) => row.grade === grade);
  const above = d610Limits[at - 1]!.upToPercent;
  const upTo = Math.min(mostPercent, d610Limits[at]!.upToPercent);
  const percent = above * (upTo / above) ** random.next();
  // A limit belongs to its grade: the rounding to whole pixels must not carry a plate over it.
  const least = Math.floor((above / 100) * pixels) + 1;
  const most = Math.floor((upTo / 100) * pixels);
  const rustedPixels = Math.min(most, Math.max(least, Math.round((percent / 100) * pixels)));
  return { seed: random.below(2 ** 31), rustedPixels, ground: plateGrounds[random.below(2)]! };
}

/** The rusted area of a plate, % of it. */
export function platePercent({ rustedPixels }: Pick<PlateRecipe, "rustedPixels">): number {
  return (100 * rustedPixels) / pixels;
}

/** The plate itself: its picture, and which of its pixels are rust (1). Refuses more rust than it has pixels. */
export function rustPlate(recipe: PlateRecipe): RgbImage & { rust: Uint8Array } {
  requireWhole("rustedPixels", recipe.rustedPixels);
  requireOneOf("ground", recipe.ground, plateGrounds);
  if (recipe.rustedPixels > pixels) throw new InputError("rustedPixels", recipe.rustedPixels, `at most ${pixels}`);
  const random = seededRandom(recipe.seed);
  const rust = spots(recipe.rustedPixels, random);
  return { ...platePx, rgb: painted(rust, recipe.ground, random), rust };
}

/** Spot upon spot until exactly so many pixels are rust; the last spot is cut to what is left. */
function spots(wanted: number, random: SeededRandom): Uint8Array {
  const rust = new Uint8Array(pixels);
  // Fine specks, or few large spots: an eye meets both on one area.
  const coarseness = 0.05 + 0.2 * random.next();
  const typicalPx = Math.max(1.1, Math.min(26, coarseness * Math.sqrt(wanted)));
  let left = wanted;
  while (left > 0) {
    for (const at of spotPixels(typicalPx * Math.exp(0.6 * normalDraw(random)), random)) {
      if (left === 0) break;
      if (rust[at] === 1) continue;
      rust[at] = 1;
      left--;
    }
  }
  return rust;
}

/** The pixels of one irregular spot on the plate, from its middle outwards. */
function spotPixels(radiusPx: number, random: SeededRandom): number[] {
  const { widthPx, heightPx } = platePx;
  const [x0, y0] = [random.next() * widthPx, random.next() * heightPx];
  const waves = [2, 3, 5, 8].map((times) => ({ times, size: 0.22 * random.next(), phase: 6.283 * random.next() }));
  const reach = Math.ceil(radiusPx * 1.9) + 1;
  const found: { at: number; far: number }[] = [];
  for (let y = Math.max(0, Math.floor(y0 - reach)); y <= Math.min(heightPx - 1, y0 + reach); y++)
    for (let x = Math.max(0, Math.floor(x0 - reach)); x <= Math.min(widthPx - 1, x0 + reach); x++) {
      const angle = Math.atan2(y - y0, x - x0);
      const edge = waves.reduce((sum, { times, size, phase }) => sum + size * Math.cos(times * angle + phase), 1);
      const far = Math.hypot(x - x0, y - y0) / (radiusPx * Math.max(0.2, edge));
      if (far <= 1) found.push({ at: y * widthPx + x, far });
    }
  return found.sort((a, b) => a.far - b.far).map(({ at }) => at);
}

/** About normal, mean 0 and SD 1: the sum of twelve fractions, less six. */
const normalDraw = (random: SeededRandom): number =>
  Array.from({ length: 12 }, random.next).reduce((sum, one) => sum + one, -6);

const greyOf = { steel: 152, phosphate: 74 } as const;
const rustColours = { fresh: [168, 92, 40], old: [98, 54, 32] } as const;

/** Brushed lines, slow shading and grain below; rust from orange to brown on top. */
function painted(rust: Uint8Array, ground: PlateGround, random: SeededRandom): Uint8Array {
  const { widthPx, heightPx } = platePx;
  const rgb = new Uint8Array(pixels * 3);
  const lines = Array.from({ length: heightPx }, () => (ground === "steel" ? 7 : 2) * (random.next() - 0.5));
  const shades = Array.from({ length: 5 }, () => ({
    ...{ x: (random.next() - 0.5) / 30, y: (random.next() - 0.5) / 30 },
    ...{ phase: 6.283 * random.next(), size: 5 * random.next() },
  }));
  const ages = Array.from({ length: 4 }, () => ({
    ...{ x: (random.next() - 0.5) / 4, y: (random.next() - 0.5) / 4, phase: 6.283 * random.next(), size: 0.2 },
  }));
  const wave = (of: typeof ages, x: number, y: number) =>
    of.reduce((sum, one) => sum + one.size * Math.sin(one.x * x + one.y * y + one.phase), 0);
  for (let at = 0; at < pixels; at++) {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)];
    const grain = 10 * (random.next() - 0.5);
    const grey = greyOf[ground] + lines[y]! + wave(shades, x, y) + grain;
    const age = Math.min(1, Math.max(0, 0.5 + wave(ages, x, y) + 0.5 * (random.next() - 0.5)));
    for (const channel of [0, 1, 2] as const) {
      const rusty = rustColours.fresh[channel] * (1 - age) + rustColours.old[channel] * age + grain;
      rgb[at * 3 + channel] = Math.min(255, Math.max(0, Math.round(rust[at] === 1 ? rusty : grey)));
    }
  }
  return rgb;
}
