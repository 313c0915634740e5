/**
 * Where light turns to dark along a short line across an edge, finer than a pixel, and how far blur has drawn the edge out.
 *
 * Optical blur is even in light, so the true edge lies where the light is halfway; halfway in sRGB steps would lie too far in the dark.
 *
 * Units    px
 * Source   half-level crossing in linear light; width from 20 to 80 %, brought to 10 to 90 % as for a Gaussian blur
 * Status   computed
 */
import { readLight } from "./grey-image.ts";
import type { Point } from "./homography.ts";
import type { RgbImage } from "./raster.ts";

export type EdgeCrossing = {
  point: Point;
  /** Distance over which the light goes from 10 to 90 % of the step, px; null where noise hides it. */
  widthPx: number | null;
};

/** 1.2816 / 0.8416: how much wider 10 to 90 % is than 20 to 80 % under a Gaussian blur. */
const widerBy = 1.5228;
/** A long line is read in coarser steps: between them the light is interpolated anyway. */
const leastStepPx = 0.5;
const stepsPerReach = 18;

/**
 * The crossing from light to dark nearest to the middle of a line of 2 `reachPx`; `direction` (of length 1) points into the dark.
 * Null where the two ends do not differ by `leastStep` of the lighter one.
 */
export function edgeCrossing(
  photo: RgbImage,
  line: { middle: Point; direction: Point; reachPx: number; leastStep: number },
): EdgeCrossing | null {
  const { middle, direction, reachPx, leastStep } = line;
  const stepPx = Math.max(leastStepPx, reachPx / stepsPerReach);
  const half = Math.max(4, Math.round(reachPx / stepPx));
  const xAt = (step: number) => middle[0] + (step - half) * stepPx * direction[0];
  const yAt = (step: number) => middle[1] + (step - half) * stepPx * direction[1];
  const { xPx, yPx, light } = profileOf(2 * half + 1);
  for (let step = 0; step < light.length; step++) {
    xPx[step] = xAt(step);
    yPx[step] = yAt(step);
  }
  readLight(photo, xPx, yPx, light);
  const endSteps = Math.max(2, Math.round(half * 0.4));
  const outside = meanOf(light, 0, endSteps);
  const inside = meanOf(light, light.length - endSteps, light.length);
  if (!(Math.abs(outside - inside) >= leastStep * Math.max(outside, inside))) return null;
  const crossingOf = (share: number) => crossing(light, outside + share * (inside - outside), outside > inside, half);
  const middleAt = crossingOf(0.5);
  if (middleAt === null) return null;
  const from = crossingOf(0.2);
  const to = crossingOf(0.8);
  return {
    point: [xAt(middleAt), yAt(middleAt)],
    widthPx: from === null || to === null || to <= from ? null : (to - from) * stepPx * widerBy,
  };
}

type Profile = { xPx: Float64Array; yPx: Float64Array; light: Float64Array };

/** By length: hundreds of lines of one or two lengths are read in a picture, and the arrays of the last one are used again. */
const profiles = new Map<number, Profile>();

function profileOf(length: number): Profile {
  const known = profiles.get(length);
  if (known) return known;
  if (profiles.size > 20) profiles.clear();
  const fresh = { xPx: new Float64Array(length), yPx: new Float64Array(length), light: new Float64Array(length) };
  profiles.set(length, fresh);
  return fresh;
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum += values[at]!;
  return sum / (to - from);
}

/** The step, with its fraction, at which the level is crossed in the wanted direction; of several the one nearest to the middle. */
function crossing(light: Float64Array, level: number, falling: boolean, half: number): number | null {
  let best: number | null = null;
  for (let at = 1; at < light.length; at++) {
    const before = light[at - 1]!;
    const after = light[at]!;
    if (falling ? before >= level && after < level : before <= level && after > level) {
      const step = at - 1 + (level - before) / (after - before);
      if (best === null || Math.abs(step - half) < Math.abs(best - half)) best = step;
    }
  }
  return best;
}
