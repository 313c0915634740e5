/**
 * Small spots that are not to be believed on a surface of which nothing is known: too little of them is sure, or they are no warmer than what lies around.
 *
 * Rust is another stuff than the surface it sits on, so a spot of it is redder and yellower than its ring. A hole, a shadow, a scratch or the
 * colour noise of dark steel is not. A large place has no such ring: what lies around may be its own bloom and run-off, so it stands as it is.
 *
 * Units    px; log odds; a* and b* of CIELAB
 * Source   our own; limits chosen on photographs left out of the learning and on clean rendered faces
 * Status   computed
 */
import { marks } from "./raster.ts";

/** Of the counted part: a larger place is no small spot. */
const smallShare = 0.02;
/** So many pixels of a spot must be sure; as many as are averaged before the model looks at one. */
const leastSurePixels = 9;
/** A spot is warmer than its ring by this, along the diagonal of a* and b*. */
const leastWarmer = 1;
/** Steps from a spot's pixels to its ring, px at the size at which a picture is looked at. */
const ringSteps = [
  [6, 0],
  [-6, 0],
  [0, 6],
  [0, -6],
  [4, 4],
  [-4, 4],
  [4, -4],
  [-4, -4],
] as const;
/** With fewer places than this around it a spot has no ring to be compared with. */
const leastRing = 8;

type Surface = { widthPx: number; heightPx: number; a: Float32Array; b: Float32Array };

/**
 * The pixels of each doubtful spot, one array per spot. `found` marks rust, `logOdds` from `sureFrom` on is sure, `counted` (not 0 =
 * counted) says which part is the surface in question; null: all of it.
 */
export function doubtfulSpots(
  found: Uint8Array,
  { logOdds, sureFrom }: { logOdds: Float32Array; sureFrom: number },
  surface: Surface,
  counted: Uint8Array | null,
): Int32Array[] {
  const mostPixels = smallShare * (counted ? counted.reduce((sum, one) => sum + (one === 0 ? 0 : 1), 0) : found.length);
  const seen = new Uint8Array(found.length);
  const open = new Int32Array(found.length);
  const doubtful: Int32Array[] = [];
  for (let start = 0; start < found.length; start++) {
    if (found[start] !== marks.rust || seen[start] === 1) continue;
    const spot = open.subarray(0, spotFrom(start, found, surface.widthPx, seen, open));
    if (spot.length > mostPixels) continue;
    let sure = 0;
    for (const at of spot) if (logOdds[at]! >= sureFrom) sure++;
    if (sure < leastSurePixels || !isWarmer(spot, found, surface, counted)) doubtful.push(spot.slice());
  }
  return doubtful;
}

/** Puts the pixels that touch, corners included, into `open` and counts them. */
function spotFrom(start: number, found: Uint8Array, widthPx: number, seen: Uint8Array, open: Int32Array): number {
  open[0] = start;
  seen[start] = 1;
  let count = 1;
  for (let next = 0; next < count; next++) {
    const at = open[next]!;
    const column = at % widthPx;
    const first = column > 0 ? -1 : 0;
    const last = column < widthPx - 1 ? 1 : 0;
    for (let middle = at - widthPx; middle <= at + widthPx; middle += widthPx) {
      if (middle < 0 || middle >= found.length) continue;
      for (let near = middle + first; near <= middle + last; near++) {
        if (found[near] !== marks.rust || seen[near] === 1) continue;
        seen[near] = 1;
        open[count++] = near;
      }
    }
  }
  return count;
}

function isWarmer(
  spot: Int32Array,
  found: Uint8Array,
  { widthPx, heightPx, a, b }: Surface,
  counted: Uint8Array | null,
): boolean {
  let [own, ring, ringPixels] = [0, 0, 0];
  for (const at of spot) {
    own += a[at]! + b[at]!;
    const column = at % widthPx;
    const row = (at - column) / widthPx;
    for (const [right, down] of ringSteps) {
      const [x, y] = [column + right, row + down];
      if (x < 0 || y < 0 || x >= widthPx || y >= heightPx) continue;
      const near = y * widthPx + x;
      if (found[near] === marks.rust || counted?.[near] === 0) continue;
      ring += a[near]! + b[near]!;
      ringPixels++;
    }
  }
  if (ringPixels < leastRing) return true;
  return own / spot.length - ring / ringPixels >= Math.SQRT2 * leastWarmer;
}
