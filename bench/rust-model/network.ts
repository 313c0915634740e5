/** A network of two hidden layers of rectified units, learned by Adam with decay of weights, from weighted samples. */
import { seededRandom } from "../../src/core/numeric/random.ts";
import { inputCount, type RustModel } from "../../src/core/vision/rust-model.ts";

export type Samples = { inputs: Float32Array; isRust: Uint8Array; weight: Float32Array };
export type Learning = { units: readonly [number, number]; draws: number; passes: number; decay: number; rate: number };

/** Learns on `draws` samples drawn by weight in each pass; the last third of the passes is averaged, which steadies the answer. */
export function learnNetwork(
  samples: Samples,
  learning: Learning,
  seed: number,
): Omit<RustModel, "name" | "rustFromLogOdds" | "limitReach" | "heedsColourRule"> {
  const random = seededRandom(seed);
  const { shift, scale } = standard(samples);
  const [h1, h2] = learning.units;
  const sizes = { first: h1 * (inputCount + 1), second: h2 * (h1 + 1), last: h2 + 1 };
  const count = sizes.first + sizes.second + sizes.last;
  const p = new Float64Array(count);
  const normal = () => random.next() + random.next() + random.next() + random.next() - 2;
  for (let u = 0, at = 0; u < h1; u++, at += inputCount + 1)
    for (let i = 1; i <= inputCount; i++) p[at + i] = normal() * Math.sqrt(3 * (1 / inputCount));
  for (let u = 0, at = sizes.first; u < h2; u++, at += h1 + 1)
    for (let i = 1; i <= h1; i++) p[at + i] = normal() * Math.sqrt(3 * (2 / h1));
  for (let u = 1; u <= h2; u++) p[sizes.first + sizes.second + u] = normal() * Math.sqrt(3 / h2);
  const [g, m, v, mean] = [0, 0, 0, 0].map(() => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const cumulative = new Float64Array(samples.weight.length);
  let total = 0;
  for (let i = 0; i < cumulative.length; i++) cumulative[i] = total += samples.weight[i]!;
  const x = new Float64Array(inputCount);
  const z1 = new Float64Array(h1);
  const z2 = new Float64Array(h2);
  const d1 = new Float64Array(h1);
  const batch = 256;
  const steps = Math.floor(learning.draws / batch);
  let step = 0;
  let averaged = 0;
  for (let pass = 0; pass < learning.passes; pass++)
    for (let s = 0; s < steps; s++) {
      g.fill(0);
      for (let k = 0; k < batch; k++) {
        const at = draw(cumulative, random.next() * total);
        for (let i = 0; i < inputCount; i++) x[i] = (samples.inputs[at * inputCount + i]! - shift[i]!) / scale[i]!;
        let w = 0;
        for (let u = 0; u < h1; u++) {
          let sum = p[w++]!;
          for (let i = 0; i < inputCount; i++) sum += p[w++]! * x[i]!;
          z1[u] = Math.max(sum, 0);
        }
        for (let u = 0; u < h2; u++) {
          let sum = p[w++]!;
          for (let i = 0; i < h1; i++) sum += p[w++]! * z1[i]!;
          z2[u] = Math.max(sum, 0);
        }
        let odds = p[w]!;
        for (let u = 0; u < h2; u++) odds += p[w + 1 + u]! * z2[u]!;
        // A mask is never certain: 2 % of each kind may be the other, so no sample pulls without end.
        const target = samples.isRust[at] ? 0.98 : 0.02;
        const miss = 1 / (1 + Math.exp(-odds)) - target;
        g[w]! += miss;
        d1.fill(0);
        for (let u = 0, row = sizes.first; u < h2; u++, row += h1 + 1) {
          if (z2[u] === 0) continue;
          g[w + 1 + u]! += miss * z2[u]!;
          const d = miss * p[w + 1 + u]!;
          g[row]! += d;
          for (let i = 0; i < h1; i++) {
            g[row + 1 + i]! += d * z1[i]!;
            d1[i]! += d * p[row + 1 + i]!;
          }
        }
        for (let u = 0, row = 0; u < h1; u++, row += inputCount + 1) {
          if (z1[u] === 0) continue;
          const d = d1[u]!;
          g[row]! += d;
          for (let i = 0; i < inputCount; i++) g[row + 1 + i]! += d * x[i]!;
        }
      }
      step++;
      const share = step / (steps * learning.passes);
      const rate = learning.rate * (share < 0.66 ? 1 : 0.3);
      const [c1, c2] = [1 - 0.9 ** step, 1 - 0.999 ** step];
      for (let i = 0; i < count; i++) {
        const grad = g[i]! / batch;
        m[i] = 0.9 * m[i]! + 0.1 * grad;
        v[i] = 0.999 * v[i]! + 0.001 * grad * grad;
        p[i]! -= rate * (m[i]! / c1 / (Math.sqrt(v[i]! / c2) + 1e-8) + learning.decay * p[i]!);
      }
      if (share > 0.66) {
        averaged++;
        for (let i = 0; i < count; i++) mean[i]! += (p[i]! - mean[i]!) / averaged;
      }
    }
  return unstandardised(mean, { h1, h2 }, shift, scale);
}

function standard({ inputs }: Samples) {
  const n = inputs.length / inputCount;
  const shift = new Float64Array(inputCount);
  const scale = new Float64Array(inputCount);
  for (let i = 0; i < inputCount; i++) {
    let [sum, squares] = [0, 0];
    for (let s = 0; s < n; s++) {
      const value = inputs[s * inputCount + i]!;
      sum += value;
      squares += value * value;
    }
    shift[i] = sum / n;
    scale[i] = Math.sqrt(Math.max(1e-6, squares / n - (sum / n) ** 2));
  }
  return { shift, scale };
}

function draw(cumulative: Float64Array, at: number): number {
  let [low, high] = [0, cumulative.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (cumulative[middle]! < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The weights as they act on the inputs themselves, to five digits. */
function unstandardised(
  p: Float64Array,
  { h1, h2 }: { h1: number; h2: number },
  shift: Float64Array,
  scale: Float64Array,
) {
  const short = (value: number) => Number(value.toPrecision(5));
  let at = 0;
  const first = Array.from({ length: h1 }, () => {
    const bias = p[at++]!;
    const weights = Array.from({ length: inputCount }, () => p[at++]!);
    const moved = weights.reduce((sum, w, i) => sum - (w * shift[i]!) / scale[i]!, bias);
    return [short(moved), ...weights.map((w, i) => short(w / scale[i]!))];
  });
  const second = Array.from({ length: h2 }, () => Array.from({ length: h1 + 1 }, () => short(p[at++]!)));
  const last = Array.from({ length: h2 + 1 }, () => short(p[at++]!));
  return { first, second, last };
}
