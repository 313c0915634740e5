/** A rendered coupon on a bench, as a phone sees it: perspective, shadow, uneven light, tint and noise. */
import { seededRandom } from "../../core/numeric/random.ts";
import { type CornersPx, type Perspective, perspectiveOf, type SizeMm } from "../../core/vision/coupon-plane.ts";
import { linearLight } from "../../core/vision/lab-image.ts";
import { srgbByteOf } from "../../core/vision/srgb-byte.ts";
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

/**
 * `colours` are sRGB values of the coupon's plane, three per cell, and are used up; the picture comes back as sRGB bytes.
 * Written out by hand where it runs once for every pixel: the demonstration's hundreds of pictures wait for this loop.
 */
export function photographed(
  plane: Plane,
  colours: Float32Array,
  frame: Frame,
  corners: CornersPx,
  light: Light,
): Uint8Array {
  // Light adds up where a pixel sees two surfaces; sRGB values do not. So it is mixed as light and encoded at the end.
  turnToLight(colours);
  const [a, b, c, d, e, f, g, h, i] = inverseOf(perspectiveOf(corners));
  const rgb = new Uint8ClampedArray(frame.width * frame.height * 3);
  const bench = benchOf(frame);
  const { grain, encoded } = tablesOnce();
  const [red, green, blue] = light.tint.map((tint) => tint * encodeSteps) as [number, number, number];
  let noiseAt = light.noiseFrom % grainLength;
  for (let row = 0, at = 0, to = 0; row < frame.height; row++) {
    const y = row + 0.5;
    const [rowU, rowV, rowW] = [b * y + c, e * y + f, h * y + i];
    const rowLight = light.exposure + light.alongY * (row / frame.height - 0.5) - light.alongX / 2;
    const lightPerPx = light.alongX / frame.width;
    for (let column = 0; column < frame.width; column++, at++, to += 3) {
      const x = column + 0.5;
      const w = 1 / (g * x + rowW);
      const u = (a * x + rowU) * w;
      const v = (d * x + rowV) * w;
      if (u >= 0 && u < 1 && v >= 0 && v < 1) sampleSteel(plane, colours, u, v);
      else sampleBench(bench[at]!, plane.sizeMm, u, v);
      const brightness = rowLight + lightPerPx * column;
      if (noiseAt + 3 > grainLength) noiseAt = 0;
      rgb[to] = encoded[Math.min(encodeSteps, (sampled[0]! * brightness * red) | 0)]! + grain[noiseAt]!;
      rgb[to + 1] = encoded[Math.min(encodeSteps, (sampled[1]! * brightness * green) | 0)]! + grain[noiseAt + 1]!;
      rgb[to + 2] = encoded[Math.min(encodeSteps, (sampled[2]! * brightness * blue) | 0)]! + grain[noiseAt + 2]!;
      noiseAt += 3;
    }
  }
  return new Uint8Array(rgb.buffer);
}

/** What the last sampling saw, 0 to 1 in linear light: one place, for half a million calls a picture. */
const sampled = new Float32Array(3);

function turnToLight(colours: Float32Array): void {
  const { decoded } = tablesOnce();
  for (let at = 0; at < colours.length; at++) {
    const value = colours[at]!;
    colours[at] = value <= 0 ? 0 : value >= 255 ? 1 : decoded[(value * fineSteps) | 0]!;
  }
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
  const lowerRight = alongX * alongY;
  const upperRight = alongX - lowerRight;
  const lowerLeft = alongY - lowerRight;
  const upperLeft = 1 - alongX - lowerLeft;
  for (let channel = 0; channel < 3; channel++)
    sampled[channel] =
      upperLeft * lit[upper + channel]! +
      upperRight * lit[upper + 3 + channel]! +
      lowerLeft * lit[lower + channel]! +
      lowerRight * lit[lower + 3 + channel]!;
}

const benchLight = [0.55, 0.53, 0.49] as const;

function sampleBench(cloud: number, size: SizeMm, u: number, v: number): void {
  // The coupon's shadow falls to the lower right.
  const alongMm = Math.max(0, Math.abs((u - 0.5) * size.lengthMm - 1.2) - size.lengthMm / 2);
  const acrossMm = Math.max(0, Math.abs((v - 0.5) * size.widthMm - 1.8) - size.widthMm / 2);
  const awayMm = Math.sqrt(alongMm * alongMm + acrossMm * acrossMm);
  const shadow = awayMm > 8 ? 1 : 1 - 0.7 * Math.exp(-awayMm / 1.6);
  const lit = (1 + 0.06 * cloud) * shadow;
  sampled[0] = benchLight[0] * lit;
  sampled[1] = benchLight[1] * lit;
  sampled[2] = benchLight[2] * lit;
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

/** Spread of the sensor's noise, in sRGB steps. */
const grainSteps = 2.2;

/** Sensor noise, and sRGB (IEC 61966-2-1) both ways in fine steps. */
function tablesOnce(): Tables {
  if (!tables) {
    const random = seededRandom(13);
    tables = {
      grain: Float32Array.from(
        { length: grainLength },
        () => (random.next() + random.next() + random.next() + random.next() - 2) * Math.sqrt(3) * grainSteps,
      ),
      encoded: Float32Array.from({ length: encodeSteps + 1 }, (_, step) => srgbByteOf((step + 0.5) / encodeSteps)),
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
