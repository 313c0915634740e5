/**
 * Roughly where the coupon lies in the window: the largest patch that is not paper, as a turned rectangle. Its shadow may still be in it.
 *
 * Units    mm on the card
 * Source   our own
 * Status   computed
 */
import type { Point } from "./homography.ts";
import type { LightImage } from "./window-image.ts";

/** Corners in mm, clockwise from the one nearest to the card's top left. */
export type RoughCoupon = { corners: [Point, Point, Point, Point] };

/** A channel this share off the paper's is no paper. */
const offPaper = 0.16;
/** The paper of each row is read from its two ends, where no coupon lies, mm. */
const paperEndsMm = 4;
/** A coupon covers at least this share of the window. */
const leastShare = 0.05;
/** The longest turn against the card that is looked for, degrees; a coupon laid on more askew is laid anew or marked by hand. */
const mostTurnDeg = 14;

/** Null where nothing large enough differs from the paper. */
export function roughCoupon(image: LightImage): RoughCoupon | null {
  const patch = largestPatch(notPaper(image), image);
  if (patch.length < leastShare * image.widthPx * image.heightPx) return null;
  const turn = bestTurn(patch, image.widthPx);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const ends = extent(patch, image.widthPx, cos, sin);
  const place = (along: number, down: number): Point => [
    image.originMm.xMm + (along * cos - down * sin) / image.pxPerMm,
    image.originMm.yMm + (along * sin + down * cos) / image.pxPerMm,
  ];
  const { left, right, top, bottom } = ends;
  return { corners: [place(left, top), place(right, top), place(right, bottom), place(left, bottom)] };
}

function notPaper({ widthPx, heightPx, pxPerMm, light }: LightImage): Uint8Array {
  const ends = Math.round(paperEndsMm * pxPerMm);
  const values = new Float32Array(ends);
  const other = new Uint8Array(widthPx * heightPx);
  for (let row = 0; row < heightPx; row++)
    for (let channel = 0; channel < 3; channel++) {
      const from = 3 * row * widthPx + channel;
      const left = medianOf(light, from, values);
      const right = medianOf(light, from + 3 * (widthPx - ends), values);
      for (let column = 0; column < widthPx; column++) {
        const share = column / widthPx;
        const expected = left * (1 - share) + right * share;
        if (Math.abs(light[from + 3 * column]! - expected) > offPaper * expected) other[row * widthPx + column] = 1;
      }
    }
  return other;
}

/** Of one channel of so many pixels in a row as `values` has room for. */
function medianOf(light: Float32Array, from: number, values: Float32Array): number {
  for (let at = 0; at < values.length; at++) values[at] = light[from + 3 * at]!;
  return values.sort()[values.length >> 1]!;
}

/** Pixels of the largest connected patch. */
function largestPatch(other: Uint8Array, { widthPx, heightPx }: LightImage): Int32Array {
  const lastRow = widthPx * (heightPx - 1);
  /** Patches one after the other; and the pixels whose neighbours are still to be looked at. */
  const pixels = new Int32Array(other.length);
  const waiting = new Int32Array(other.length);
  let [past, largestFrom, largestPast] = [0, 0, 0];
  for (let start = 0; start < other.length; start++) {
    if (other[start] !== 1) continue;
    const from = past;
    let depth = take(other, start, waiting, 0);
    while (depth > 0) {
      const at = waiting[--depth]!;
      pixels[past++] = at;
      const column = at % widthPx;
      if (column > 0) depth = take(other, at - 1, waiting, depth);
      if (column < widthPx - 1) depth = take(other, at + 1, waiting, depth);
      if (at >= widthPx) depth = take(other, at - widthPx, waiting, depth);
      if (at < lastRow) depth = take(other, at + widthPx, waiting, depth);
    }
    if (past - from > largestPast - largestFrom) [largestFrom, largestPast] = [from, past];
  }
  return pixels.subarray(largestFrom, largestPast);
}

/** Puts a pixel that belongs to a patch and was not met before last among the waiting; how many wait then. */
function take(other: Uint8Array, at: number, waiting: Int32Array, depth: number): number {
  if (other[at] !== 1) return depth;
  other[at] = 2;
  waiting[depth] = at;
  return depth + 1;
}

/** The turn, in radians, whose upright rectangle round the patch is smallest: by two degrees, then by half ones. */
function bestTurn(patch: Int32Array, widthPx: number): number {
  const areaAt = (degrees: number) => {
    const turn = (degrees * Math.PI) / 180;
    const { left, right, top, bottom } = extent(patch, widthPx, Math.cos(turn), Math.sin(turn));
    return (right - left) * (bottom - top);
  };
  const least = (candidates: readonly number[]) => {
    const areas = candidates.map(areaAt);
    return candidates[areas.indexOf(Math.min(...areas))]!;
  };
  const whole = least(Array.from({ length: mostTurnDeg + 1 }, (_, at) => 2 * at - mostTurnDeg));
  const half = least(Array.from({ length: 7 }, (_, at) => whole + (at - 3) / 2));
  return (half * Math.PI) / 180;
}

/** Reach of the patch along and across a turned axis; the outermost few pixels (dust, a tick of print) do not count. */
function extent(patch: Int32Array, widthPx: number, cos: number, sin: number) {
  const stride = Math.max(1, Math.floor(patch.length / 2500));
  const spared = Math.floor(Math.ceil(patch.length / stride) * 0.002);
  const [left, right, top, bottom] = [0, 0, 0, 0].map(() =>
    new Float64Array(spared + 1).fill(Number.POSITIVE_INFINITY),
  ) as Ends;
  for (let at = 0; at < patch.length; at += stride) {
    const x = (patch[at]! % widthPx) + 0.5;
    const y = Math.floor(patch[at]! / widthPx) + 0.5;
    const along = x * cos + y * sin;
    const down = y * cos - x * sin;
    if (along < left[spared]!) putIn(left, along);
    if (-along < right[spared]!) putIn(right, -along);
    if (down < top[spared]!) putIn(top, down);
    if (-down < bottom[spared]!) putIn(bottom, -down);
  }
  return { left: left[spared]!, right: -right[spared]!, top: top[spared]!, bottom: -bottom[spared]! };
}

type Ends = [Float64Array, Float64Array, Float64Array, Float64Array];

/** Into its place among the smallest; the largest of them falls out. */
function putIn(smallest: Float64Array, value: number): void {
  let at = smallest.length - 1;
  while (at > 0 && smallest[at - 1]! > value) {
    smallest[at] = smallest[at - 1]!;
    at--;
  }
  smallest[at] = value;
}
