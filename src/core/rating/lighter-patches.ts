/**
 * How far the lighter patches of a face move its mean colour: the mirror image of a lamp is a large one.
 *
 * Formula  sum of (patch area / face area) x CIEDE2000 of the patch against the rest
 * Units    mm² and CIEDE2000 in, CIEDE2000 out
 * Source   our own
 * Status   common practice
 */
import { requirePositive } from "../input-error.ts";

/** From here on a lamp may have been mirrored: rendered, a lamp that makes L* 3 too light moves the mean by 1, a patch of 12 mm by 0.2. */
export const lampSuspectedDeltaE = 0.8;

/** Darker patches do not count: no lamp makes one. Refuses a face without area. */
export function lighterPatchesDeltaE(
  patches: readonly { areaMm2: number; deltaE: number; lighter: boolean }[],
  faceMm2: number,
): number {
  requirePositive("faceMm2", faceMm2);
  return patches.reduce((sum, { areaMm2, deltaE, lighter }) => sum + (lighter ? (areaMm2 / faceMm2) * deltaE : 0), 0);
}
