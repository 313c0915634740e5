/**
 * A tape test from two photographs: the cut region before and after, laid over each other by the cuts themselves.
 *
 * Units    px, mm, % of the assessed area
 * Source   our own; tried on rendered tape tests of known removal (docs/tape-from-photo.md)
 * Status   common practice
 */
import { boxMean } from "./box-mean.ts";
import type { SizeMm } from "./coupon-plane.ts";
import type { RgbImage } from "./raster.ts";
import { barePixels, type PaintDistance, paintDistance } from "./tape-bare.ts";
import type { CutLine, CutPattern } from "./tape-cuts.ts";
import type { TapeFrame } from "./tape-frame.ts";
import { type LaidOver, laidOver, type TapePicture } from "./tape-laid-over.ts";
import {
  cutStrips,
  type LatticeRemoval,
  latticeRemoval,
  removedPixels,
  rimPixels,
  sureFlakes,
  type XRemoval,
  xRemoval,
} from "./tape-measure.ts";
import { removedShares } from "./tape-share.ts";

export const tapeReadingMethod = "tape by cuts 3";

/** `span`: where the true percent probably lies. */
type Counted<Removal> = Removal & { span: { from: number; to: number } };
export type TapeReading = {
  method: string;
  pxPerMm: number;
  removal: ({ form: "cross-cut" } & Counted<LatticeRemoval>) | ({ form: "x-cut" } & Counted<XRemoval>);
  /** After the pull, square on, with what came off outlined. */
  overlay: RgbImage;
};

/** Why no class is given: what lies in the cuts looks like the paint, so nobody could see paint missing. */
export type TapeUnreadable = { unreadable: true; sentence: string };

/** The paint that is trusted to have stayed begins so far outside the cut region. */
const clearMm = { "cross-cut": 1, "x-cut": 2 } as const;

/** Both pictures by the corners of the lattice's outer cuts, or the four ends of the X, clockwise. */
export function tapeReading(
  before: TapePicture,
  after: TapePicture,
  pattern: CutPattern,
): TapeReading | TapeUnreadable {
  const read = readLaidOver(laidOver(before, after, pattern), pattern);
  if (pattern.form === "cross-cut" || !("unreadable" in read)) return read;
  return readLaidOver(laidOver(before, after, pattern, "lines"), pattern);
}

/** Both pictures already laid over each other. */
export function readLaidOver(
  { size, pxPerMm, frameBefore, frameAfter, cuts }: LaidOver,
  pattern: CutPattern,
): TapeReading | TapeUnreadable {
  const wide = cutStrips(frameBefore, cuts, 0.35);
  const rim = rimPixels(frameBefore, size, clearMm[pattern.form], wide);
  const paintBefore = paintDistance(frameBefore, rim);
  const contrast = cutContrast(frameBefore, paintBefore, cuts);
  if (contrast < Math.max(leastContrast, paintBefore.onPaint))
    return {
      unreadable: true,
      sentence:
        "What lies in the cuts can hardly be told from the paint in the photograph before the pull, so missing paint could not be seen either. Take both from nearer and with light from the side, or let your eye's class count.",
    };
  const strips = seenStrips(frameBefore, wide, paintBefore, contrast);
  const paintAfter = paintDistance(frameAfter, rim);
  if (cutContrast(frameAfter, paintAfter, cuts) < leastShareSeenAgain * contrast)
    return {
      unreadable: true,
      sentence:
        "The two photographs could not be laid over each other by their cuts. Look whether the rings stand on the same corners in both, in the same order, and whether the spacing is the one that was cut.",
    };
  const seen = { before: paintBefore, after: paintAfter };
  const shares = removedShares(frameAfter, seen, cuts);
  const halfGone = Uint8Array.from(shares, (share) => (share > 0.5 ? 1 : 0));
  const read = { method: tapeReadingMethod, pxPerMm };
  if (pattern.form === "cross-cut") {
    const removal = latticeRemoval(frameAfter, shares, cuts);
    const span = spanOf(removal.removedPercent, readingError[pattern.form]);
    return {
      ...{ ...read, removal: { form: pattern.form, ...removal, span } },
      overlay: outlined(frameAfter.image, within(frameAfter, halfGone, size)),
    };
  }
  const bare = (frame: TapeFrame, paint: PaintDistance) => barePixels(frame, paint, { share: 0.5, strips });
  const sure = removedPixels(
    frameAfter,
    { before: bare(frameBefore, paintBefore), after: bare(frameAfter, paintAfter) },
    strips,
  );
  // Along two cuts little tells the pictures' lie: the rim of a cut laid a little off goes part of the way, but never the whole.
  const removed = sureFlakes(halfGone, sure, frameAfter);
  const removal = xRemoval(frameAfter, removed, [cuts[0]!, cuts[1]!]);
  const span = spanOf(removal.removedPercent, readingError[pattern.form]);
  return {
    ...{ ...read, removal: { form: pattern.form, ...removal, span } },
    overlay: outlined(frameAfter.image, removed),
  };
}

/** Five of six rendered tests of known removal were read this near: so many points, and this share of it besides. */
const readingError = {
  "cross-cut": { points: 0.3, share: 0.12, most: 4 },
  "x-cut": { points: 0.3, share: 0.06, most: 3 },
} as const;

/** Where the true percent may lie; nothing seen is nothing. */
function spanOf(
  percent: number,
  { points, share, most }: { points: number; share: number; most: number },
): { from: number; to: number } {
  const off = percent === 0 ? 0 : Math.min(most, points + share * percent);
  return { from: Math.max(0, percent - off), to: Math.min(100, percent + off) };
}

/** After the pull the cuts must stand out where they did before, or be bare, by this share of what they did. */
const leastShareSeenAgain = 0.45;
/** Colour distance of the cuts from the paint below which missing paint would not be seen. */
const leastContrast = 3.5;

/** How strongly the middle of the cuts stands out before the pull, in colour distance. */
function cutContrast(
  { extent, pxPerMm, image: { widthPx, heightPx } }: TapeFrame,
  { distance, onPaint }: PaintDistance,
  cuts: readonly CutLine[],
): number {
  const values: number[] = [];
  for (const { from, to } of cuts)
    for (let share = 0.03; share < 1; share += 0.03) {
      const x = Math.floor((from[0] + (to[0] - from[0]) * share - extent.leftMm) * pxPerMm);
      const y = Math.floor((from[1] + (to[1] - from[1]) * share - extent.topMm) * pxPerMm);
      if (x >= 0 && y >= 0 && x < widthPx && y < heightPx) values.push(distance[y * widthPx + x]!);
    }
  return (values.sort((a, b) => a - b)[values.length >> 1] ?? 0) - onPaint;
}

/** Two pictures lie over each other to about this, mm: the cuts as seen are widened by it. */
const widenMm = 0.07;

/** 1 where a cut was seen before the pull, within reach of where cuts run. */
function seenStrips(
  { image: { widthPx, heightPx }, pxPerMm }: TapeFrame,
  near: Uint8Array,
  { distance, onPaint }: PaintDistance,
  contrast: number,
): Uint8Array {
  const seen = distance.map((value) => (value > onPaint + 0.3 * contrast ? 1 : 0));
  const widened = boxMean(seen, widthPx, heightPx, Math.max(1, Math.round(widenMm * pxPerMm)));
  return near.map((value, at) => (value === 1 && widened[at]! > 0 ? 1 : 0));
}

/** What lies in the lattice; beyond it nothing is counted, so nothing is drawn. */
function within({ extent, pxPerMm, image: { widthPx } }: TapeFrame, removed: Uint8Array, size: SizeMm): Uint8Array {
  return removed.map((value, at) => {
    const x = extent.leftMm + (at % widthPx) / pxPerMm;
    const y = extent.topMm + Math.floor(at / widthPx) / pxPerMm;
    return x > 0 && y > 0 && x < size.lengthMm && y < size.widthMm ? value : 0;
  });
}

/** Drawn dark and light, so that the line shows on any paint. */
function outlined(image: RgbImage, removed: Uint8Array): RgbImage {
  const { widthPx, heightPx } = image;
  const rgb = image.rgb.slice();
  for (let at = 0; at < removed.length; at++) {
    if (removed[at] === 0) continue;
    const x = at % widthPx;
    const y = (at - x) / widthPx;
    const onRim =
      (x > 0 && removed[at - 1] === 0) ||
      (x < widthPx - 1 && removed[at + 1] === 0) ||
      (y > 0 && removed[at - widthPx] === 0) ||
      (y < heightPx - 1 && removed[at + widthPx] === 0);
    if (onRim) rgb.set((x + y) % 6 < 3 ? [255, 255, 0] : [0, 0, 0], at * 3);
  }
  return { widthPx, heightPx, rgb };
}
