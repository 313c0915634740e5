/** The samples that the rust model is learned from: pixels of each picture, as it is and altered. */
import type { SeededRandom } from "../../src/core/numeric/random.ts";
import { rustFeatures } from "../../src/core/vision/rust-features.ts";
import { inputCount, inputsAt } from "../../src/core/vision/rust-model.ts";
import { type Masked, otherLight, otherPaint, otherRust, rustPatches, windowOf } from "./altered.ts";
import type { Samples } from "./network.ts";
import type { Picture } from "./pictures.ts";

export type Part = { group: string; inputs: Float32Array; isRust: Uint8Array; weight: Float32Array };

/** Pixels of one picture, half of them rust where there is enough; weights between fair by area and fair by kind. */
function sampled(
  picture: Masked,
  group: string,
  of: { pixels: number; weight: number },
  random: SeededRandom,
): Part | null {
  const features = rustFeatures(picture.image, picture.counted, picture.pxPerMm);
  const kinds: [number[], number[]] = [[], []];
  for (let at = 0; at < picture.rust.length; at++) if (picture.counted[at]) kinds[picture.rust[at] ? 1 : 0].push(at);
  const all = kinds[0].length + kinds[1].length;
  if (all < 50) return null;
  const rusty = kinds[0].length === 0 ? of.pixels : Math.min(kinds[1].length, of.pixels >> 1);
  const taken = [of.pixels - rusty, rusty];
  const inputs = new Float32Array(of.pixels * inputCount);
  const isRust = new Uint8Array(of.pixels);
  const weight = new Float32Array(of.pixels);
  let n = 0;
  for (const kind of [0, 1] as const) {
    if (kinds[kind].length === 0) continue;
    const each = Math.sqrt(kinds[kind].length / all / (taken[kind]! / of.pixels));
    for (let i = 0; i < taken[kind]!; i++, n++) {
      const at = kinds[kind][random.below(kinds[kind].length)]!;
      inputsAt(
        features,
        Math.floor(at / picture.image.widthPx),
        at % picture.image.widthPx,
        inputs.subarray(n * inputCount, (n + 1) * inputCount),
      );
      isRust[n] = kind;
      weight[n] = each;
    }
  }
  const total = weight.reduce((sum, one) => sum + one, 0);
  return {
    group,
    inputs: inputs.subarray(0, n * inputCount),
    isRust: isRust.subarray(0, n),
    weight: weight.subarray(0, n).map((one) => (one * of.weight) / total),
  };
}

/** Samples of a picture as it is and altered. */
export function partsOf(picture: Picture, random: SeededRandom): Part[] {
  const parts: (Part | null)[] = [];
  const take = (masked: Masked | null, pixels: number, weight: number) => {
    if (masked) parts.push(sampled(masked, picture.group, { pixels, weight }, random));
  };
  if (!picture.real) {
    take(picture, 900, 0.5);
    take(otherLight(picture, random, 0.5), 300, 0.1);
    take(otherLight(otherPaint(picture, random), random, 0.5), 300, 0.05);
    // Fresh rust on dark steel is brighter than the steel, and in no photograph at hand.
    for (let k = 0; k < 2; k++) take(otherLight(otherRust(picture, random, 1.8), random, 0.5), 300, 0.25);
    if (picture.percent < 5)
      for (let k = 0; k < 3; k++) take(otherLight(rustPatches(picture, random), random, 0.5), 300, 0.3);
    return parts.filter((part) => part !== null);
  }
  take(picture, 3000, 1);
  for (let k = 0; k < 2; k++) take(otherLight(picture, random, 1), 1000, 0.5);
  for (let k = 0; k < 3; k++) take(otherLight(otherPaint(picture, random), random, 0.6), 1000, 0.4);
  for (let k = 0; k < 2; k++) take(otherLight(otherRust(picture, random, 1.15), random, 0.6), 1000, 0.3);
  for (const wanted of ["rust", "none"] as const)
    for (let k = 0; k < (wanted === "rust" ? 4 : 2); k++) {
      const window = windowOf(picture, random, wanted);
      if (!window) continue;
      take(
        k === 0
          ? window
          : wanted === "none"
            ? otherPaint(window, random)
            : otherLight(otherRust(window, random, 1.15), random, 1),
        600,
        0.3,
      );
    }
  return parts.filter((part) => part !== null);
}

/** All samples in one. */
export function together(parts: readonly Part[]): Samples {
  const n = parts.reduce((sum, part) => sum + part.isRust.length, 0);
  const samples = { inputs: new Float32Array(n * inputCount), isRust: new Uint8Array(n), weight: new Float32Array(n) };
  let at = 0;
  for (const part of parts) {
    samples.inputs.set(part.inputs, at * inputCount);
    samples.isRust.set(part.isRust, at);
    samples.weight.set(part.weight, at);
    at += part.isRust.length;
  }
  return samples;
}

/** Things and places of the photographs, in seven parts: each part is left out once. */
export function foldsOf(pictures: readonly Picture[], random: SeededRandom): string[][] {
  const names = random.shuffle([...new Set(pictures.map(({ group }) => group))]);
  return Array.from({ length: 7 }, (_, at) => names.filter((_, i) => i % 7 === at));
}
