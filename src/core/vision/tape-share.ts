/**
 * How much of each place of a lattice came off, 0 to 1, from before and after laid over each other.
 *
 * A place that lost its paint went from how it looked before to what lies bare nearby; the share is how far it went, by least
 * squares over a few pixels of light, so a sliver narrower than a blurred edge counts for what it is. A cut shows bare metal before and
 * after alike: nearer to its middle a place says less, and takes the state of its sides. Dark burr beside a cut is what the cuts
 * of the picture before show on average at that distance.
 *
 * Units    light (linear, 0 to 1), mm, share of a pixel
 * Source   our own; widths and the least share chosen on rendered tape tests (docs/tape-from-photo.md)
 * Status   computed
 */
import { boxMean } from "./box-mean.ts";
import type { PaintDistance } from "./tape-bare.ts";
import type { CutLine } from "./tape-cuts.ts";
import type { TapeFrame } from "./tape-frame.ts";
import { offNearestCut } from "./tape-measure.ts";

/** From here on a place says something of its paint, and from there on as much as any, mm from a cut's middle. */
const deaf = { fromMm: 0.1, toMm: 0.24 } as const;
/** So far round a place in a cut its sides are asked, mm; and so far off a cut lies what is surely beside it. */
const sidesMm = 0.17;
const clearOfCutMm = 0.2;
/** Beyond it the picture before is plain paint, and only its noise would be added, mm. */
const besideCutMm = 0.3;
const bareReachMm = 1.5;
/** Less than this, round about, is noise. */
const leastShare = 0.2;
const leastSeen = 7;
const timesPaint = 3.5;
const surelyBare = 1.5;

type Pictures = { before: PaintDistance; after: PaintDistance };

/** One share per pixel of the frame, from colours against the paint before and after; 0 everywhere where nothing lies bare. */
export function removedShares(frame: TapeFrame, { before, after }: Pictures, cuts: readonly CutLine[]): Float32Array {
  const { pxPerMm } = frame;
  const { widthPx, heightPx } = frame.image;
  const mean = (plane: Float32Array, radius: number) => boxMean(plane, widthPx, heightPx, radius);
  const off = offNearestCut(frame, cuts);
  const bare = bareColour(frame, { before, after }, off);
  if (bare === null) return new Float32Array(off.length);
  const burr = burrColour(before, off);
  const went = new Float32Array(off.length);
  const way = new Float32Array(off.length);
  for (let at = 0; at < off.length; at++) {
    const offMm = off[at]!;
    const says = Math.min(1, Math.max(0, (offMm - deaf.fromMm) / (deaf.toMm - deaf.fromMm)));
    if (says === 0) continue;
    const already = offMm < besideCutMm ? shareBare(before, bare, at) : 0;
    for (let channel = 0; channel < 3; channel++) {
      const expected = says * ((1 - already) * bare[channel]![at]! - burr(offMm, channel));
      const was = offMm < besideCutMm ? before.offPaint[channel]![at]! : 0;
      went[at]! += (after.offPaint[channel]![at]! - was) * expected;
      way[at]! += expected * expected;
    }
  }
  const near = { went: mean(went, 1), way: mean(way, 1) };
  const reach = Math.max(1, Math.round(sidesMm * pxPerMm));
  const sides = { went: mean(went, reach), way: mean(way, reach) };
  const share = off.map((offMm, at) => {
    const of = offMm < (deaf.fromMm + deaf.toMm) / 2 ? sides : near;
    return of.way[at]! > 0 ? Math.max(0, Math.min(1, of.went[at]! / of.way[at]!)) : 0;
  });
  const around = mean(share, Math.max(1, Math.round(0.1 * pxPerMm)));
  return share.map((value, at) => (around[at]! > leastShare ? value : 0));
}

/** How far a place looked bare before the pull: bright metal in a cut cannot come bare again. */
function shareBare({ offPaint }: PaintDistance, bare: readonly Float32Array[], at: number): number {
  let [along, length] = [0, 0];
  for (const [channel, plane] of bare.entries()) {
    along += offPaint[channel]![at]! * plane[at]!;
    length += plane[at]! ** 2;
  }
  return length > 0 ? Math.max(0, Math.min(1, along / length)) : 0;
}

/** What lies bare round each place; null where nothing does. */
function bareColour({ image, pxPerMm }: TapeFrame, { before, after }: Pictures, off: Float32Array) {
  const { widthPx, heightPx } = image;
  const seen = Math.max(leastSeen, timesPaint * after.onPaint);
  const isOff = (at: number) => off[at]! > clearOfCutMm && after.distance[at]! > seen && before.distance[at]! <= seen;
  const far = after.distance.filter((_, at) => isOff(at)).sort();
  // Strays of paint and cut reach a little over the limit, a surface that came bare well over it.
  if ((far[Math.floor(0.85 * far.length)] ?? 0) < surelyBare * leastSeen) return null;
  // The soft rim of a flake is no colour of its own.
  const onFlake = 0.6 * far[Math.floor(0.75 * far.length)]!;
  const seeds = off.map((_, at) => (isOff(at) && after.distance[at]! > onFlake ? 1 : 0));
  const many = seeds.reduce((sum, seed) => sum + seed, 0);
  const radius = Math.round(bareReachMm * pxPerMm);
  const count = boxMean(seeds, widthPx, heightPx, radius);
  return after.offPaint.map((plane) => {
    const onBare = plane.map((value, at) => value * seeds[at]!);
    const overall = onBare.reduce((sum, value) => sum + value, 0) / many;
    // A few places of their own outweigh the picture's mean.
    return boxMean(onBare, widthPx, heightPx, radius).map((sum, at) => (sum + 0.02 * overall) / (count[at]! + 0.02));
  });
}

const binMm = 0.02;

/** Colour beside a cut before the pull by distance (mm) and channel, where it is darker than the paint; 0 elsewhere. */
function burrColour({ offPaint }: PaintDistance, off: Float32Array): (offMm: number, channel: number) => number {
  const bins = Array.from({ length: Math.round(0.4 / binMm) }, () => ({ many: 0, sums: [0, 0, 0] }));
  for (let at = 0; at < off.length; at++) {
    const bin = bins[Math.floor(off[at]! / binMm)];
    if (!bin) continue;
    bin.many++;
    for (let channel = 0; channel < 3; channel++) bin.sums[channel]! += offPaint[channel]![at]!;
  }
  return (offMm, channel) => {
    const bin = bins[Math.floor(offMm / binMm)];
    return bin && bin.many > 0 && bin.sums[0]! < 0 ? bin.sums[channel]! / bin.many : 0;
  };
}
