/** Pictures as they might also have been: other light, other paint under the same rust, darker rust. For learning only. */
import type { SeededRandom } from "../../src/core/numeric/random.ts";
import { boxMean } from "../../src/core/vision/box-mean.ts";
import { labImage } from "../../src/core/vision/lab-image.ts";
import type { RgbImage } from "../../src/core/vision/raster.ts";

export type Masked = { image: RgbImage; rust: Uint8Array; counted: Uint8Array; pxPerMm: number | null };

const between = (random: SeededRandom, low: number, high: number) => low + (high - low) * random.next();
const normal = (random: SeededRandom) =>
  (random.next() + random.next() + random.next() + random.next() - 2) * Math.sqrt(3);

/** Exposure, gamma, contrast, colour cast and saturation, each by chance. */
export function otherLight({ image, ...rest }: Masked, random: SeededRandom, strength: number): Masked {
  const gamma = Math.exp(normal(random) * 0.25 * strength);
  const exposure = Math.exp(normal(random) * 0.12 * strength);
  const gains = [0, 0, 0].map(() => exposure * Math.exp(normal(random) * 0.05 * strength));
  const contrast = Math.exp(normal(random) * 0.2 * strength);
  const saturation = Math.exp(normal(random) * 0.35 * strength);
  const curve = Float32Array.from({ length: 256 }, (_, byte) => (byte / 255) ** gamma);
  const rgb = new Uint8Array(image.rgb.length);
  const middle = curve[110]!;
  for (let at = 0; at < rgb.length; at += 3) {
    const values = [0, 1, 2].map((c) => (curve[image.rgb[at + c]!]! * gains[c]! - middle) * contrast + middle);
    const grey = (values[0]! + values[1]! + values[2]!) / 3;
    for (let c = 0; c < 3; c++)
      rgb[at + c] = Math.min(255, Math.max(0, 255 * (grey + (values[c]! - grey) * saturation) + 0.5));
  }
  return { image: { ...image, rgb }, ...rest };
}

type Coat = { hue: number; chroma: number; lightness: number };

/** What is not rust gets another colour: paints of all hues, orange and brown among them, dark and bright steel. */
export function otherPaint(picture: Masked, random: SeededRandom): Masked {
  const coats: readonly (() => Coat)[] = [
    () => ({ hue: 0, chroma: 0, lightness: between(random, 0.7, 1.15) }),
    () => ({ hue: between(random, 0, 360), chroma: between(random, 5, 40), lightness: between(random, 0.7, 1.15) }),
    () => ({ hue: between(random, 25, 75), chroma: between(random, 25, 75), lightness: between(random, 0.6, 1) }),
    () => ({ hue: between(random, 20, 80), chroma: between(random, 20, 60), lightness: between(random, 0.6, 1) }),
    () => ({ hue: between(random, 70, 100), chroma: between(random, 10, 60), lightness: between(random, 0.7, 1.15) }),
    () => ({ hue: between(random, 0, 360), chroma: between(random, 0, 5), lightness: between(random, 0.25, 0.6) }),
    () => ({ hue: between(random, 0, 360), chroma: between(random, 0, 5), lightness: between(random, 0.3, 0.8) }),
    () => ({ hue: between(random, 200, 300), chroma: between(random, 3, 30), lightness: between(random, 0.5, 1.15) }),
    () => ({ hue: between(random, 0, 40), chroma: between(random, 15, 50), lightness: between(random, 0.5, 1) }),
  ];
  const coat = coats[random.below(coats.length)]!();
  const kept = between(random, 0, 0.6);
  const [coatA, coatB] = [Math.cos, Math.sin].map((part) => coat.chroma * part((coat.hue * Math.PI) / 180)) as [
    number,
    number,
  ];
  const lab = labImage(picture.image);
  const usual = median(lab.lightness, picture.counted);
  return recoloured(picture, false, (lightness, a, b) => {
    const lit = Math.sqrt(Math.min(1.6, Math.max(0.1, lightness / Math.max(10, usual))));
    return [lightness * coat.lightness, a * kept + coatA * lit, b * kept + coatB * lit];
  });
}

/** Rust from fresh orange to nearly black: `brightest` is the most that its lightness grows by. */
export function otherRust(picture: Masked, random: SeededRandom, brightest: number): Masked {
  const [lighter, stronger, turn] = [
    between(random, 0.5, brightest),
    between(random, 0.5, 1.2),
    between(random, -0.15, 0.15),
  ];
  return recoloured(picture, true, (lightness, a, b) => [
    lightness * lighter,
    a * stronger * (1 + turn),
    b * stronger * (1 - turn),
  ]);
}

/** Patches of one rust, smooth or mottled, fresh orange to nearly black, with soft rims; the rust already there stays. */
export function rustPatches(picture: Masked, random: SeededRandom): Masked {
  const { image, counted, pxPerMm } = picture;
  const { widthPx, heightPx } = image;
  const plane = (radiusPx: number) => standardised(softNoise(widthPx, heightPx, radiusPx, random));
  const where = plane(Math.round(Math.min(widthPx, heightPx) * between(random, 0.02, 0.12)));
  const mottle = plane(1 + random.below(6));
  const share = 0.01 * 60 ** random.next();
  const sorted = where.slice().sort();
  const from = sorted[Math.floor((1 - share) * (sorted.length - 1))]!;
  const hue = (between(random, 35, 68) * Math.PI) / 180;
  const [lightness, chroma] = [between(random, 22, 58), between(random, 12, 42)];
  const [uneven, through, soft] = [between(random, 0, 7), between(random, 0.05, 0.35), between(random, 0.02, 0.2)];
  const lab = labImage(image);
  const rgb = image.rgb.slice();
  const rust = picture.rust.slice();
  for (let at = 0; at < rust.length; at++) {
    const cover = Math.min(1, Math.max(0, 0.5 + (where[at]! - from) / soft)) * (1 - through);
    if (cover === 0) continue;
    const by = uneven * mottle[at]!;
    const mixed = (old: number, now: number) => old + (now - old) * cover;
    rgb.set(
      rgbOf([
        mixed(lab.lightness[at]!, lightness + by),
        mixed(lab.a[at]!, (chroma + by / 2) * Math.cos(hue)),
        mixed(lab.b[at]!, (chroma + by / 2) * Math.sin(hue)),
      ]),
      at * 3,
    );
    if (where[at]! >= from) rust[at] = 255;
  }
  return { image: { widthPx, heightPx, rgb }, rust, counted, pxPerMm };
}

function softNoise(widthPx: number, heightPx: number, radiusPx: number, random: SeededRandom): Float32Array {
  const noise = Float32Array.from({ length: widthPx * heightPx }, () => random.next());
  return boxMean(boxMean(noise, widthPx, heightPx, radiusPx), widthPx, heightPx, radiusPx);
}

function standardised(plane: Float32Array): Float32Array {
  const mean = plane.reduce((sum, one) => sum + one, 0) / plane.length;
  const spread = Math.sqrt(plane.reduce((sum, one) => sum + (one - mean) ** 2, 0) / plane.length);
  return plane.map((one) => (one - mean) / spread);
}

/** A window that holds nearly only rust, or none; null where there is no such window. */
export function windowOf(
  { image, rust, counted, pxPerMm }: Masked,
  random: SeededRandom,
  wanted: "rust" | "none",
): Masked | null {
  for (let tries = 0; tries < 60; tries++) {
    const share = between(random, 0.12, 0.5);
    const widthPx = Math.floor(image.widthPx * share);
    const heightPx = Math.floor(image.heightPx * share);
    const left = random.below(image.widthPx - widthPx + 1);
    const top = random.below(image.heightPx - heightPx + 1);
    const cut = <T extends Uint8Array>(from: T, size: number, to: T) => {
      for (let row = 0; row < heightPx; row++) {
        const start = ((top + row) * image.widthPx + left) * size;
        to.set(from.subarray(start, start + widthPx * size), row * widthPx * size);
      }
      return to;
    };
    const inside = cut(counted, 1, new Uint8Array(widthPx * heightPx));
    const rusty = cut(rust, 1, new Uint8Array(widthPx * heightPx));
    const pixels = inside.reduce((n, value) => n + (value ? 1 : 0), 0);
    const found = rusty.reduce((n, value, at) => n + (value && inside[at] ? 1 : 0), 0);
    if (pixels < inside.length / 2 || (wanted === "rust" ? found < 0.9 * pixels : found > 0)) continue;
    return {
      image: { widthPx, heightPx, rgb: cut(image.rgb, 3, new Uint8Array(widthPx * heightPx * 3)) },
      rust: rusty,
      counted: inside,
      pxPerMm,
    };
  }
  return null;
}

function median(values: Float32Array, counted: Uint8Array): number {
  const sorted = values.filter((_, at) => counted[at] !== 0).sort();
  return sorted[sorted.length >> 1] ?? 50;
}

/** Rust (or all else) in another colour, with soft rims. */
export function recoloured(
  { image, rust, ...rest }: Masked,
  ofRust: boolean,
  to: (lightness: number, a: number, b: number) => readonly [number, number, number],
): Masked {
  const lab = labImage(image);
  const rgb = image.rgb.slice();
  const steps = [0, -1, 1, -image.widthPx, image.widthPx];
  for (let at = 0; at < rust.length; at++) {
    // Half of each where the two meet, as a camera would see it.
    let share = 0;
    for (const step of steps) if (((rust[at + step] ?? rust[at]!) !== 0) === ofRust) share += 0.2;
    if (share === 0) continue;
    const [lightness, a, b] = [lab.lightness[at]!, lab.a[at]!, lab.b[at]!];
    const now = to(lightness, a, b);
    const mixed = (old: number, other: number) => old + (other - old) * share;
    rgb.set(rgbOf([mixed(lightness, now[0]), mixed(a, now[1]), mixed(b, now[2])]), at * 3);
  }
  return { image: { ...image, rgb }, rust, ...rest };
}

function rgbOf([lightness, a, b]: readonly [number, number, number]): number[] {
  const y = (Math.min(100, Math.max(0, lightness)) + 16) / 116;
  const back = (t: number) => (t > 6 / 29 ? t ** 3 : 3 * (6 / 29) ** 2 * (t - 4 / 29));
  const [X, Y, Z] = [0.95047 * back(y + a / 500), back(y), 1.08883 * back(y - b / 200)];
  return [
    3.2404542 * X - 1.5371385 * Y - 0.4985314 * Z,
    -0.969266 * X + 1.8760108 * Y + 0.041556 * Z,
    0.0556434 * X - 0.2040259 * Y + 1.0572252 * Z,
  ].map((v) => {
    const light = Math.min(1, Math.max(0, v));
    return 255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055) + 0.5;
  });
}
