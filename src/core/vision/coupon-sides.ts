/**
 * Straight lines along which the light changes, near each side of the rough coupon, and the pair of opposite lines that fits its size.
 *
 * A coupon is a rectangle: all four sides are looked for at one common turn, so that a faint edge beside the strong one of its own
 * shadow is not drawn askew by it.
 *
 * Units    mm on the plane of the coupon's top; change of light in ln
 * Source   our own
 * Status   computed
 */
import type { Point } from "./homography.ts";
import { type SideStrip, stripOutsideMm, stripStepMm, stripSteps } from "./side-strips.ts";

/** A line across a strip: where it crosses the middle, how much light or hue changes there (in ln), and along which share of it. */
export type SideLine = {
  offsetMm: number;
  strength: number;
  share: number;
  by: "light" | "hue";
  /** 1 unless something speaks against it. */
  weight: number;
};

const turnStepDeg = 0.25;
const mostTurnDeg = 2;
/** The change is taken between the means over this many steps on both sides: wide to find the turn, narrow to tell lines apart. */
const wideSteps = 4;
const narrowSteps = 2;
/** A change of light of this much (in ln) at one place counts no more: an edge is long, a glint is not. */
const mostAtOnce = 1;
/** A line weaker than this (in ln) is texture of the steel. */
const leastStrength = 0.04;

/** The turn of all four sides against the rough ones, in radians, at which their edges are strongest together. */
export function commonTurn(strips: readonly SideStrip[]): number {
  const steps = Math.round(mostTurnDeg / turnStepDeg);
  const turns = Array.from({ length: 2 * steps + 1 }, (_, at) => ((at - steps) * turnStepDeg * Math.PI) / 180);
  const changes = strips.map((strip) => changesOf(strip, wideSteps));
  const strengths = turns.map((turn) =>
    strips.reduce((sum, strip, at) => sum + strongest(meanAlong(strip, changes[at]!, turn, 2)), 0),
  );
  const best = strengths.indexOf(Math.max(...strengths));
  const [before, at, after] = [strengths[best - 1] ?? 0, strengths[best]!, strengths[best + 1] ?? 0];
  const bend = before - 2 * at + after;
  const between = best === 0 || best === turns.length - 1 || bend >= 0 ? 0 : (before - after) / (2 * bend);
  return turns[best]! + (between * turnStepDeg * Math.PI) / 180;
}

/** Every line across the strip along which the light changes, at that turn, from the outermost on. */
export function sideLines(strip: SideStrip, turn: number): SideLine[] {
  const changes = changesOf(strip, narrowSteps);
  const mean = meanAlong(strip, changes, turn, 1);
  const found: SideLine[] = [];
  for (let step = 1; step + 1 < stripSteps; step++) {
    const [before, at, after] = [Math.abs(mean[step - 1]!), Math.abs(mean[step]!), Math.abs(mean[step + 1]!)];
    if (at < leastStrength || at < before || at <= after) continue;
    const bend = before - 2 * at + after;
    const offsetMm = (step + (before - after) / (2 * bend)) * stripStepMm - stripOutsideMm;
    found.push({
      offsetMm,
      strength: at,
      share: shareAlong(strip, changes, { turn, step, mean: mean[step]! }),
      by: "light",
      weight: 1,
    });
  }
  return found.map((line) => (isRim(line, found) ? { ...line, weight: weightOfRim } : line));
}

/** With a line of this share of its strength within so many mm inside of it, a line is the rim of a shadow; it counts this much. */
const insideOfRim = { share: 0.35, fromMm: 0.25, toMm: 4 };
const weightOfRim = 0.5;

function isRim(line: SideLine, lines: readonly SideLine[]): boolean {
  return lines.some(({ offsetMm, strength }) => {
    const inside = offsetMm - line.offsetMm;
    return strength > insideOfRim.share * line.strength && inside > insideOfRim.fromMm && inside < insideOfRim.toMm;
  });
}

/** Farther than this from where the hue changes, a line is a shadow's rim or texture, mm; it counts this much. */
const nearHueMm = 0.5;
const awayFromHue = 0.5;

/** Lines of light weighed by where the hue changes; where none of them is near, the change of hue is a line itself. */
export function withHue(lines: readonly SideLine[], hue: SideLine | null): SideLine[] {
  if (!hue) return [...lines];
  const isNear = ({ offsetMm }: SideLine) => Math.abs(offsetMm - hue.offsetMm) <= nearHueMm;
  const weighed = lines.map((line) => (isNear(line) ? line : { ...line, weight: awayFromHue }));
  return lines.some(isNear) ? weighed : [...weighed, hue];
}

/** A coupon's cut side is that near to the plan's size, mm (one standard deviation), and how much that counts against a strong edge. */
const cutWithinMm = 0.3;
const weightOfSize = 0.3;
/** A line of this strength counts half: stronger ones hardly more, since a shadow's rim may outshine the steel's edge. */
const halfStrength = 0.1;

/** The pair of opposite lines of which both are edges and whose distance fits best; null without a pair. `apartMm`: between the rough sides. */
export function coupleOfLines(
  one: readonly SideLine[],
  other: readonly SideLine[],
  { apartMm, expectedMm }: { apartMm: number; expectedMm: number },
): { first: SideLine; second: SideLine; offMm: number } | null {
  let best: { first: SideLine; second: SideLine; score: number; offMm: number } | null = null;
  for (const first of one)
    for (const second of other) {
      const offMm = apartMm - first.offsetMm - second.offsetMm - expectedMm;
      const score = weightOf(first) + weightOf(second) - (weightOfSize * (offMm / cutWithinMm) ** 2) / 2;
      if (!best || score > best.score) best = { first, second, score, offMm };
    }
  return best;
}

const weightOf = ({ strength, weight }: SideLine) => (weight * strength) / (strength + halfStrength);

/** The line's ends, mm. */
export function lineAcross(
  { middle, along, inwards, lengthMm }: SideStrip,
  turn: number,
  offsetMm: number,
): [Point, Point] {
  const end = (s: number): Point => {
    const t = offsetMm + s * Math.tan(turn);
    return [middle[0] + s * along[0] + t * inwards[0], middle[1] + s * along[1] + t * inwards[1]];
  };
  return [end(-lengthMm / 2), end(lengthMm / 2)];
}

/** Change of ln(light) across each place of the strip; a glint or a spot counts little, a whole edge fully. */
function changesOf({ log, linesAtMm }: SideStrip, across: number): Float32Array {
  const changes = new Float32Array(log.length);
  for (let line = 0; line < linesAtMm.length; line++)
    for (let step = across; step < stripSteps - across; step++) {
      const at = line * stripSteps + step;
      let change = 0;
      for (let away = 1; away <= across; away++) change += log[at + away]! - log[at - away]!;
      changes[at] = Math.max(-mostAtOnce, Math.min(mostAtOnce, change / across));
    }
  return changes;
}

function strongest(values: Float64Array): number {
  let most = 0;
  for (let at = 0; at < values.length; at++) most = Math.max(most, Math.abs(values[at]!));
  return most;
}

/** Mean over the lines of the strip, each shifted by the turn; every second one is enough to find the turn. */
function meanAlong({ linesAtMm }: SideStrip, changes: Float32Array, turn: number, every: 1 | 2): Float64Array {
  const sums = new Float64Array(stripSteps);
  const tangent = Math.tan(turn);
  for (let line = 0; line < linesAtMm.length; line += every) {
    const shift = (linesAtMm[line]! * tangent) / stripStepMm;
    const whole = Math.floor(shift);
    const part = shift - whole;
    const start = line * stripSteps + whole;
    for (let step = Math.max(0, -whole), past = Math.min(stripSteps, stripSteps - 1 - whole); step < past; step++)
      sums[step]! += changes[start + step]! * (1 - part) + changes[start + step + 1]! * part;
  }
  for (let step = 0; step < stripSteps; step++) sums[step] = (sums[step]! * every) / linesAtMm.length;
  return sums;
}

/** Along which share of a line the light changes as it does in the mean, at least by a third of it. */
function shareAlong(
  { linesAtMm }: SideStrip,
  changes: Float32Array,
  { turn, step, mean }: { turn: number; step: number; mean: number },
): number {
  let like = 0;
  const tangent = Math.tan(turn);
  for (let line = 0; line < linesAtMm.length; line++) {
    const at = Math.round(step + (linesAtMm[line]! * tangent) / stripStepMm);
    if (at >= 0 && at < stripSteps && changes[line * stripSteps + at]! * Math.sign(mean) > Math.abs(mean) / 3) like++;
  }
  return like / linesAtMm.length;
}
