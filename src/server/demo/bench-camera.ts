/** A rendered coupon on a bench, as a phone sees it: perspective, shadow, uneven light, tint and noise. */
import { seededRandom } from "../../core/numeric/random.ts";
import { type CornersPx, type Perspective, perspectiveOf, type SizeMm } from "../../core/vision/coupon-plane.ts";
import { linearLight } from "../../core/vision/lab-image.ts";
import { smoothNoise } from "./smooth-noise.ts";

export type Frame = { width: number; height: number };

export type Light = {
  /** Factors on the light: of the whole picture, and its rise from one side to the other. */
  exposure: number;
  alongX: number;
  alongY: number;
  tint: readonly [number, number, number];
  /** Where in the sensor's grain the picture begins. */
  noiseFrom: number;
};

type Plane = { width: number; height: number; sizeMm: SizeMm };

/** Brightness steps between two sRGB bytes that are told apart. */
const fineSteps = 4;
const encodeSteps = 16_384;

/** `colours` are sRGB values of the coupon's plane, three per cell; the picture comes back as sRGB bytes. */
export function photographed(
  plane: Plane,
  colours: Float32Array,
  frame: Frame,
  corners: CornersPx,
  light: Light,
): Uint8Array {
  // Light adds up where a pixel sees two surfaces; sRGB values do not. So it is mixed as light and encoded at the end.
  const lit = asLight(colours);
  const [a, b, c, d, e, f, g, h, i] = inverseOf(perspectiveOf(corners));
  const rgb = new Uint8Array(frame.width * frame.height * 3);
  const bench = benchOf(frame);
  const { grain, encoded } = tablesOnce();
  let noiseAt = light.noiseFrom % grainLength;
  for (let y = 0, at = 0; y < frame.height; y++)
    for (let x = 0; x < frame.width; x++, at++) {
      const w = 1 / (g * (x + 0.5) + h * (y + 0.5) + i);
      const u = (a * (x + 0.5) + b * (y + 0.5) + c) * w;
      const v = (d * (x + 0.5) + e * (y + 0.5) + f) * w;
      const brightness =
        light.exposure + light.alongX * (x / frame.width - 0.5) + light.alongY * (y / frame.height - 0.5);
      if (u >= 0 && u < 1 && v >= 0 && v < 1) sampleSteel(plane, lit, u, v);
      else sampleBench(bench[at]!, plane.sizeMm, u, v);
      for (let channel = 0; channel < 3; channel++) {
        const seen = sampled[channel]! * brightness * light.tint[channel]!;
        const value = encoded[Math.min(encodeSteps, (seen * encodeSteps) | 0)]! + 2.2 * grain[noiseAt]!;
        rgb[at * 3 + channel] = Math.min(255, Math.max(0, value));
        noiseAt = noiseAt + 1 === grainLength ? 0 : noiseAt + 1;
      }
    }
  return rgb;
}

/** What the last sampling saw, 0 to 1 in linear light: one place, for half a million calls a picture. */
const sampled = new Float32Array(3);

function asLight(colours: Float32Array): Float32Array {
  const { decoded } = tablesOnce();
  const lit = new Float32Array(colours.length);
  for (let at = 0; at < lit.length; at++) {
    const value = colours[at]!;
    lit[at] = value <= 0 ? 0 : value >= 255 ? 1 : decoded[(value * fineSteps) | 0]!;
  }
  return lit;
}

function sampleSteel({ width, height }: Plane, lit: Float32Array, u: number, v: number): void {
  const x = Math.min(width - 1.001, Math.max(0, u * width - 0.5));
  const y = Math.min(height - 1.001, Math.max(0, v * height - 0.5));
  const left = x | 0;
  const top = y | 0;
  const alongX = x - left;
  const alongY = y - top;
  const upper = (top * width + left) * 3;
  const lower = upper + width * 3;
  for (let channel = 0; channel < 3; channel++) {
    const above = lit[upper + channel]! * (1 - alongX) + lit[upper + 3 + channel]! * alongX;
    const below = lit[lower + channel]! * (1 - alongX) + lit[lower + 3 + channel]! * alongX;
    sampled[channel] = above * (1 - alongY) + below * alongY;
  }
}

const benchLight = [0.55, 0.53, 0.49] as const;

function sampleBench(cloud: number, size: SizeMm, u: number, v: number): void {
  // The coupon's shadow falls to the lower right.
  const alongMm = Math.max(0, Math.abs((u - 0.5) * size.lengthMm - 1.2) - size.lengthMm / 2);
  const acrossMm = Math.max(0, Math.abs((v - 0.5) * size.widthMm - 1.8) - size.widthMm / 2);
  const awayMm = Math.sqrt(alongMm * alongMm + acrossMm * acrossMm);
  const shadow = awayMm > 8 ? 1 : 1 - 0.7 * Math.exp(-awayMm / 1.6);
  for (let channel = 0; channel < 3; channel++) sampled[channel] = benchLight[channel]! * (1 + 0.06 * cloud) * shadow;
}

/** The same bench stands under every picture of one size. */
let benchMade: { frame: Frame; cloud: Float32Array } | null = null;

function benchOf(frame: Frame): Float32Array {
  if (benchMade?.frame.width !== frame.width || benchMade.frame.height !== frame.height) {
    const fibres = smoothNoise(seededRandom(11), frame, { gridX: 70, gridY: 2 });
    const speckles = smoothNoise(seededRandom(12), frame, { gridX: 2, gridY: 2 });
    benchMade = { frame, cloud: fibres.map((value, at) => value + 0.6 * speckles[at]!) };
  }
  return benchMade.cloud;
}

/** A prime length never lines up with the rows of a picture. */
const grainLength = 99_991;
type Tables = { grain: Float32Array; encoded: Float32Array; decoded: Float32Array };
let tables: Tables | null = null;

/** Sensor noise of unit spread, and sRGB (IEC 61966-2-1) both ways in fine steps. */
function tablesOnce(): Tables {
  if (!tables) {
    const random = seededRandom(13);
    tables = {
      grain: Float32Array.from(
        { length: grainLength },
        () => (random.next() + random.next() + random.next() + random.next() - 2) * Math.sqrt(3),
      ),
      encoded: Float32Array.from({ length: encodeSteps + 1 }, (_, step) => {
        const share = (step + 0.5) / encodeSteps;
        return 255 * (share <= 0.0031308 ? share * 12.92 : 1.055 * share ** (1 / 2.4) - 0.055) + 0.5;
      }),
      decoded: Float32Array.from({ length: 255 * fineSteps + 1 }, (_, step) => {
        const whole = Math.floor(step / fineSteps);
        const part = step / fineSteps - whole;
        return linearLight[whole]! * (1 - part) + linearLight[Math.min(255, whole + 1)]! * part;
      }),
    };
  }
  return tables;
}

/** From a pixel to the place on the coupon, up to a common factor: the adjugate of the perspective. */
function inverseOf(p: Perspective) {
  return [
    p.e - p.f * p.h,
    p.c * p.h - p.b,
    p.b * p.f - p.c * p.e,
    p.f * p.g - p.d,
    p.a - p.c * p.g,
    p.c * p.d - p.a * p.f,
    p.d * p.h - p.e * p.g,
    p.b * p.g - p.a * p.h,
    p.a * p.e - p.b * p.d,
  ] as const;
}
