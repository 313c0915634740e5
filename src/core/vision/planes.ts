/**
 * Planes of a picture that are used again: fresh ones of some MB each cost more than what is worked out in them.
 *
 * Who takes a plane writes all of it. Giving back is free to be left out; what is given back must be held by nobody.
 *
 * Units    one value per px
 * Source   the project's own form
 * Status   common practice
 */
const free: Float32Array[] = [];
const mostKept = 24;

/** A plane of that many values, with anything in it. */
export function takenPlane(length: number): Float32Array {
  const at = free.findIndex((plane) => plane.length === length);
  if (at < 0) return new Float32Array(length);
  return free.splice(at, 1)[0]!;
}

/** For the next taker. Of too many, the oldest are let go: pictures of one size come together. */
export function givePlanesBack(...planes: readonly Float32Array[]): void {
  free.push(...planes);
  free.splice(0, Math.max(0, free.length - mostKept));
}
