/**
 * Straight lines along which the light changes, near each side of the rough coupon, and the pair of opposite lines that fits its size.
 *
 * Units    mm on the card
 * Source   our own
 * Status   computed
 */
import type { Point } from "./homography.ts";
import type { RoughCoupon } from "./rough-coupon.ts";
import type { LightImage } from "./window-image.ts";

export type SideLine = { from: Point; to: Point; strength: number };
export type SideLines = Record<"top" | "right" | "bottom" | "left", SideLine[]>;

/** How far inside (a shadow was taken for steel) and outside of the rough side a line is looked for, mm. */
const insideMm = 7;
const outsideMm = 1.5;
const offsetStepMm = 0.1;
const turnStepDeg = 0.25;
const mostTurnDeg = 2;
const samplesAlong = 40;
/** The change is taken between the means over this many offsets on both sides. */
const acrossSteps = 4;
/** Nearer than this to a stronger line, a line is its flank, mm; a shadow's rim is farther off or does not matter. */
const flankMm = 0.8;
/** Lines weaker than this share of a side's strongest are no candidates. */
const leastOfStrongest = 0.08;
/** A change of light of this much (in ln) at one place counts no more: an edge is long, a glint is not. */
const mostAtOnce = 2;

/** Candidates for each side, strongest first; each runs clockwise round the coupon. */
export function sideLines(image: LightImage, { corners: [a, b, c, d] }: RoughCoupon): SideLines {
  const log = logLight(image);
  const lines = (from: Point, to: Point) => candidates(log, image, from, to);
  return { top: lines(a, b), right: lines(b, c), bottom: lines(c, d), left: lines(d, a) };
}

/** The first and second line of the pair whose distance fits best, each pair weighed by how strong its lines are; null without a pair. */
export function coupleOfLines(
  one: readonly SideLine[],
  other: readonly SideLine[],
  expectedMm: number,
): { first: SideLine; second: SideLine } | null {
  let best: { first: SideLine; second: SideLine; score: number } | null = null;
  for (const first of one)
    for (const second of other) {
      const off = Math.abs(Math.log(gapMm(first, second) / expectedMm));
      // Half the weight is gone when the distance is 0.8 % off: bright steel beside its own shadow is a faint edge, but in its place.
      const score = (first.strength + second.strength) / (1 + (off / 0.008) ** 2);
      if (!best || score > best.score) best = { first, second, score };
    }
  return best;
}

function gapMm(one: SideLine, other: SideLine): number {
  const middle = (line: SideLine): Point => [(line.from[0] + line.to[0]) / 2, (line.from[1] + line.to[1]) / 2];
  const [ax, ay] = middle(one);
  const [bx, by] = middle(other);
  const length = Math.hypot(one.to[0] - one.from[0], one.to[1] - one.from[1]);
  return Math.abs(((bx - ax) * (one.to[1] - one.from[1]) - (by - ay) * (one.to[0] - one.from[0])) / length);
}

/** ln of the light (mean of the channels): an edge is a ratio, as strong in shade as in the sun. */
function logLight({ light }: LightImage): Float32Array {
  const log = new Float32Array(light.length / 3);
  for (let at = 0; at < log.length; at++)
    log[at] = Math.log(0.01 + (light[3 * at]! + light[3 * at + 1]! + light[3 * at + 2]!) / 3);
  return log;
}

function candidates(log: Float32Array, image: LightImage, from: Point, to: Point): SideLine[] {
  const lengthMm = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const along: Point = [(to[0] - from[0]) / lengthMm, (to[1] - from[1]) / lengthMm];
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const best = Array.from({ length: offsets }, (_, step) => ({ offsetMm: offsetOf(step), strength: 0, turn: 0 }));
  for (const turn of turns) {
    const changes = changesAcross(log, image, { middle, along, lengthMm, turn });
    // An equal line with less turn was there before: it stays.
    for (const [step, strength] of changes.entries())
      if (strength > 1.002 * best[step]!.strength) Object.assign(best[step]!, { strength, turn });
  }
  return peaksOf(best, lengthMm).map(({ offsetMm, strength, turn }) => {
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const way: Point = [along[0] * cos - along[1] * sin, along[0] * sin + along[1] * cos];
    const place: Point = [middle[0] - offsetMm * along[1], middle[1] + offsetMm * along[0]];
    const half = lengthMm / 2;
    return {
      from: [place[0] - half * way[0], place[1] - half * way[1]],
      to: [place[0] + half * way[0], place[1] + half * way[1]],
      strength,
    };
  });
}

const offsets = Math.round((insideMm + outsideMm) / offsetStepMm) + 1;
const offsetOf = (step: number) => step * offsetStepMm - outsideMm;
/** In radians, from none outwards. */
const turns = Array.from({ length: Math.round((2 * mostTurnDeg) / turnStepDeg) + 1 }, (_, at) => {
  const steps = at % 2 === 0 ? -at / 2 : (at + 1) / 2;
  return (steps * turnStepDeg * Math.PI) / 180;
});

type Peak = { offsetMm: number; strength: number; turn: number };

/** The strongest line, then the next strongest that is none of its flanks, and so on. */
function peaksOf(lines: readonly Peak[], lengthMm: number): Peak[] {
  const falling = [...lines].sort((one, other) => other.strength - one.strength);
  const least = leastOfStrongest * (falling[0]?.strength ?? 0);
  const peaks: Peak[] = [];
  for (const line of falling) {
    if (line.strength < least || line.strength === 0) break;
    if (peaks.every((stronger) => isApart(stronger, line, lengthMm))) peaks.push(line);
  }
  return peaks;
}

/** A line that crosses a stronger one, or comes near it at an end, is its flank. */
function isApart(one: Peak, other: Peak, lengthMm: number): boolean {
  const atEnds = [-1, 1].map(
    (end) => one.offsetMm - other.offsetMm + ((end * lengthMm) / 2) * (Math.tan(one.turn) - Math.tan(other.turn)),
  );
  return Math.min(...atEnds) >= flankMm || Math.max(...atEnds) <= -flankMm;
}

/** Mean change of ln(light) across the line at each offset; a glint or a spot counts little, a whole edge fully. */
function changesAcross(
  log: Float32Array,
  image: LightImage,
  line: { middle: Point; along: Point; lengthMm: number; turn: number },
): Float64Array {
  const { middle, along, lengthMm, turn } = line;
  const sums = new Float64Array(offsets);
  // The means on both sides of an offset reach a little beyond the first and the last.
  const profile = new Float64Array(offsets + 2 * acrossSteps);
  for (let sample = 0; sample < samplesAlong; sample++) {
    const s = lengthMm * (-0.44 + (0.88 * (sample + 0.5)) / samplesAlong);
    for (let at = 0; at < profile.length; at++) {
      const t = offsetOf(at - acrossSteps) + s * Math.tan(turn);
      const x = (middle[0] + s * along[0] - t * along[1] - image.originMm.xMm) * image.pxPerMm;
      const y = (middle[1] + s * along[1] + t * along[0] - image.originMm.yMm) * image.pxPerMm;
      profile[at] = logAt(log, image, x, y);
    }
    for (let step = 0; step < offsets; step++) {
      let change = 0;
      for (let away = 1; away <= acrossSteps; away++)
        change += profile[step + acrossSteps + away]! - profile[step + acrossSteps - away]!;
      sums[step]! += Math.max(-mostAtOnce, Math.min(mostAtOnce, change / acrossSteps));
    }
  }
  return sums.map((sum) => Math.abs(sum) / samplesAlong);
}

function logAt(log: Float32Array, { widthPx, heightPx }: LightImage, x: number, y: number): number {
  const px = Math.min(widthPx - 1.001, Math.max(0, x - 0.5));
  const py = Math.min(heightPx - 1.001, Math.max(0, y - 0.5));
  const [left, top] = [Math.floor(px), Math.floor(py)];
  const at = top * widthPx + left;
  const upper = log[at]! + (log[at + 1]! - log[at]!) * (px - left);
  const lower = log[at + widthPx]! + (log[at + widthPx + 1]! - log[at + widthPx]!) * (px - left);
  return upper + (lower - upper) * (py - top);
}
