/**
 * Where along a side the paper's hue ends. A shadow keeps the hue of what it falls on, steel has its own: bright steel beside a shadow
 * as bright as itself has no other edge.
 *
 * Units    mm across the side; hue in ln of blue over red
 * Source   our own
 * Status   computed
 */
import type { SideLine } from "./coupon-sides.ts";
import { type SideStrip, stripOutsideMm, stripStepMm, stripSteps } from "./side-strips.ts";

/** The paper's hue is read over this much from the strip's outer end, the steel's this far inside of any shadow, mm. */
const paperMm = 1;
const steelFromMm = 2.5;
const steelToMm = 5;
/** Hues nearer than this (a byte or two of a JPEG) are one hue. */
const leastDifference = 0.03;
/** The hue has to stay beyond halfway over so many steps: one odd row is no coupon. */
const staysSteps = 6;

/** Null where paper and steel are of one hue. */
export function hueLine(strip: SideStrip, turn: number): SideLine | null {
  const hue = meanHue(strip, turn);
  const stepOf = (mm: number) => Math.round((mm + stripOutsideMm) / stripStepMm);
  const paper = meanOf(hue, 0, Math.round(paperMm / stripStepMm));
  const steel = meanOf(hue, stepOf(steelFromMm), stepOf(steelToMm));
  const difference = steel - paper;
  if (!(Math.abs(difference) >= leastDifference)) return null;
  const beyond = (step: number) => (hue[step]! - paper) / difference - 0.5;
  for (let step = 1; step + staysSteps < stripSteps; step++) {
    if (beyond(step - 1) >= 0) continue;
    if (!Array.from({ length: staysSteps }, (_, more) => beyond(step + more) >= 0).every(Boolean)) continue;
    const part = beyond(step - 1) / (beyond(step - 1) - beyond(step));
    const offsetMm = (step - 1 + part) * stripStepMm - stripOutsideMm;
    return {
      offsetMm,
      strength: Math.abs(difference),
      share: shareAlong(strip, { turn, step, difference }),
      by: "hue",
      weight: 1,
    };
  }
  return null;
}

function meanHue({ linesAtMm, hue }: SideStrip, turn: number): Float64Array {
  const sums = new Float64Array(stripSteps);
  const tangent = Math.tan(turn);
  for (let line = 0; line < linesAtMm.length; line++) {
    const shift = Math.round((linesAtMm[line]! * tangent) / stripStepMm);
    for (let step = 0; step < stripSteps; step++)
      sums[step]! += hue[line * stripSteps + Math.min(stripSteps - 1, Math.max(0, step + shift))]!;
  }
  return sums.map((sum) => sum / linesAtMm.length);
}

const sideSteps = 12;

/** Along which share of the line hue changes that way, at least by a third. */
function shareAlong(
  { linesAtMm, hue }: SideStrip,
  { turn, step, difference }: { turn: number; step: number; difference: number },
): number {
  let like = 0;
  const tangent = Math.tan(turn);
  for (let line = 0; line < linesAtMm.length; line++) {
    const at = Math.round(step + (linesAtMm[line]! * tangent) / stripStepMm);
    if (at < sideSteps || at + sideSteps >= stripSteps) continue;
    const start = line * stripSteps + at;
    const change = meanOf(hue, start, start + sideSteps) - meanOf(hue, start - sideSteps, start);
    if (change / difference > 1 / 3) like++;
  }
  return like / linesAtMm.length;
}

function meanOf(values: ArrayLike<number>, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum += values[at]!;
  return sum / (to - from);
}
