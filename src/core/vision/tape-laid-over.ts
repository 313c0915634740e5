/**
 * Both photographs of a tape test square on, at one scale, laid over each other by the cuts themselves.
 *
 * Units    px, mm of the cut
 * Source   our own
 * Status   computed
 */
import { type CornersPx, pxPerMmInPicture, type SizeMm } from "./coupon-plane.ts";
import { composed, type Homography } from "./homography.ts";
import type { RgbImage } from "./raster.ts";
import {
  type CutLine,
  type CutPattern,
  ownCuts,
  patternSize,
  placedCuts,
  plannedCuts,
  type XLaidBy,
} from "./tape-cuts.ts";
import { cutToPicture, extentOf, type TapeFrame, tapeFrame, tapeScale } from "./tape-frame.ts";

export type TapePicture = { photo: RgbImage; cornersPx: CornersPx };
export type LaidOver = {
  size: SizeMm;
  pxPerMm: number;
  frameBefore: TapeFrame;
  frameAfter: TapeFrame;
  /** As they lie in both frames. */
  cuts: CutLine[];
};

const marginMm = 4;

/** By the corners of the lattice's outer cuts, or the four ends of the X, clockwise. */
export function laidOver(
  before: TapePicture,
  after: TapePicture,
  pattern: CutPattern,
  afterBy: XLaidBy = "flakes",
): LaidOver {
  const size = patternSize(pattern);
  const extent = extentOf(size, marginMm);
  const pxPerMm = Math.min(
    tapeScale.most,
    ...[before, after].map(({ cornersPx }) => pxPerMmInPicture(cornersPx, size)),
  );
  const planned = plannedCuts(pattern);
  const first = cutToPicture(before.photo, before.cornersPx, size, "before.cornersPx");
  const second = cutToPicture(after.photo, after.cornersPx, size, "after.cornersPx");

  const straightened = (photo: RgbImage, toPicture: Homography, cuts: readonly CutLine[], by?: XLaidBy): TapeFrame => {
    const moved = placedCuts(tapeFrame(photo, toPicture, extent, pxPerMm), cuts, pattern, by);
    return tapeFrame(photo, composed(toPicture, moved), extent, pxPerMm);
  };
  const frameBefore = straightened(before.photo, first, planned);
  const cuts = ownCuts(frameBefore, planned, pattern);
  const frameAfter = straightened(after.photo, second, cuts, afterBy);
  return { size, pxPerMm, frameBefore, frameAfter, cuts };
}
