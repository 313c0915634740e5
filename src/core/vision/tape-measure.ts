/**
 * What the tape took off, counted on a frame with its cuts known: per lattice square, or along an X and beyond it.
 *
 * A cut itself is not removal: its strip takes the state of what lies beside it. Flakes smaller than the eye's are not counted.
 *
 * Units    mm, mm², % of area
 * Source   our own
 * Status   common practice
 */
import type { Point } from "./homography.ts";
import type { CutLine } from "./tape-cuts.ts";
import type { TapeFrame } from "./tape-frame.ts";

/** Flakes below this size are noise of the picture, mm². */
const leastFlakeMm2 = 0.06;

/** Signed distance from the line through a cut, mm, and how far along the cut, 0 to 1, both as `x a + y b + c`. */
type Ruled = { off: [number, number, number]; along: [number, number, number] };

function ruled({ from, to }: CutLine): Ruled {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return {
    off: [-uy, ux, uy * from[0] - ux * from[1]],
    along: [ux / length, uy / length, -(ux * from[0] + uy * from[1]) / length],
  };
}

const at = ([a, b, c]: Ruled["off"], [x, y]: Point): number => a * x + b * y + c;

/** Distance from the middle of a pixel to the line through a cut, signed, mm; and how far along the cut it is, 0 to 1. */
function offCut({ from, to }: CutLine, [x, y]: Point): { offMm: number; along: number } {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const [dx, dy] = [x - from[0], y - from[1]];
  return { offMm: ux * dy - uy * dx, along: (ux * dx + uy * dy) / length };
}

const placeOf = ({ extent, pxPerMm, image: { widthPx } }: TapeFrame, at: number): Point => [
  extent.leftMm + ((at % widthPx) + 0.5) / pxPerMm,
  extent.topMm + (Math.floor(at / widthPx) + 0.5) / pxPerMm,
];

/** Cuts run on beyond the region that is assessed: their strips are taken so much farther, as a share of their length. */
const overrun = 0.6;

/** How far each pixel lies from the nearest cut, mm. */
export function offNearestCut(frame: TapeFrame, cuts: readonly CutLine[]): Float32Array {
  const lines = cuts.map(ruled);
  const nearest = new Float32Array(frame.image.widthPx * frame.image.heightPx).fill(Number.POSITIVE_INFINITY);
  for (let pixel = 0; pixel < nearest.length; pixel++) {
    const place = placeOf(frame, pixel);
    for (const { off, along } of lines) {
      const offMm = Math.abs(at(off, place));
      if (offMm >= nearest[pixel]!) continue;
      const far = at(along, place);
      if (far > -overrun && far < 1 + overrun) nearest[pixel] = offMm;
    }
  }
  return nearest;
}

/** 1 within `halfWidthMm` of a cut. */
export function cutStrips(frame: TapeFrame, cuts: readonly CutLine[], halfWidthMm: number): Uint8Array {
  return Uint8Array.from(offNearestCut(frame, cuts), (offMm) => (offMm <= halfWidthMm ? 1 : 0));
}

/** 1 in the rim of the frame, farther than `clearMm` from the cut region's rectangle and outside the strips. */
export function rimPixels(
  frame: TapeFrame,
  region: { lengthMm: number; widthMm: number },
  clearMm: number,
  strips: Uint8Array,
): Uint8Array {
  return strips.map((strip, at) => {
    const [x, y] = placeOf(frame, at);
    const inside = x > -clearMm && x < region.lengthMm + clearMm && y > -clearMm && y < region.widthMm + clearMm;
    return inside || strip === 1 ? 0 : 1;
  });
}

/** The removal with the cuts' strips filled from beside them and specks dropped. `bareBefore` is not removal: it was bare. */
export function removedPixels(
  frame: TapeFrame,
  bare: { before: Uint8Array; after: Uint8Array },
  strips: Uint8Array,
): Uint8Array {
  const { widthPx, heightPx } = frame.image;
  const removed = bare.after.map((value, at) => (value === 1 && (strips[at] === 1 || bare.before[at] === 0) ? 1 : 0));
  fillStrips(removed, strips, widthPx, heightPx);
  dropSpecks(removed, widthPx, heightPx, leastFlakeMm2 * frame.pxPerMm ** 2);
  return removed;
}

/** Each pixel of a strip takes the state of the nearest pixel beside it: a wave from all of them at once. */
function fillStrips(removed: Uint8Array, strips: Uint8Array, widthPx: number, heightPx: number): void {
  const open = strips.slice();
  let wave: number[] = [];
  for (let at = 0; at < open.length; at++) if (open[at] === 0) wave.push(at);
  while (wave.length > 0) {
    const next: number[] = [];
    for (const at of wave) {
      const x = at % widthPx;
      const y = (at - x) / widthPx;
      for (const [dx, dy] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        const [nx, ny] = [x + dx, y + dy];
        if (nx < 0 || ny < 0 || nx >= widthPx || ny >= heightPx) continue;
        const near = ny * widthPx + nx;
        if (open[near] === 0) continue;
        open[near] = 0;
        removed[near] = removed[at]!;
        next.push(near);
      }
    }
    wave = next;
  }
}

/** Only the flakes of which some place is surely bare: a mask and where that is. */
export function sureFlakes(mask: Uint8Array, sure: Uint8Array, { pxPerMm, image }: TapeFrame): Uint8Array {
  const kept = mask.slice();
  dropFlakes(kept, image.widthPx, image.heightPx, (flake) => !flake.some((at) => sure[at] === 1));
  dropSpecks(kept, image.widthPx, image.heightPx, leastFlakeMm2 * pxPerMm ** 2);
  return kept;
}

function dropSpecks(removed: Uint8Array, widthPx: number, heightPx: number, leastPx: number): void {
  dropFlakes(removed, widthPx, heightPx, (flake) => flake.length < leastPx);
}

function dropFlakes(
  removed: Uint8Array,
  widthPx: number,
  heightPx: number,
  isDropped: (flake: readonly number[]) => boolean,
): void {
  const seen = new Uint8Array(removed.length);
  for (let start = 0; start < removed.length; start++) {
    if (removed[start] === 0 || seen[start] === 1) continue;
    const flake = [start];
    seen[start] = 1;
    for (let at = 0; at < flake.length; at++) {
      const x = flake[at]! % widthPx;
      for (const near of [
        x > 0 ? flake[at]! - 1 : -1,
        x < widthPx - 1 ? flake[at]! + 1 : -1,
        flake[at]! - widthPx,
        flake[at]! + widthPx,
      ]) {
        if (near < 0 || near >= widthPx * heightPx || removed[near] === 0 || seen[near] === 1) continue;
        seen[near] = 1;
        flake.push(near);
      }
    }
    if (isDropped(flake)) for (const at of flake) removed[at] = 0;
  }
}

export type LatticeRemoval = {
  removedPercent: number;
  /** Of each square, row by row from the top left, %. */
  squarePercents: number[];
};

/** Over the lattice between its outer cuts; `cuts`: first those that run down, from left to right, then those across. */
export function latticeRemoval(frame: TapeFrame, removed: ArrayLike<number>, cuts: readonly CutLine[]): LatticeRemoval {
  const each = cuts.length / 2;
  const squares = each - 1;
  const counts = Array.from({ length: squares * squares }, () => ({ all: 0, removed: 0 }));
  const lines = cuts.map(ruled);
  const [down, across] = [lines.slice(0, each), lines.slice(each)];
  for (let pixel = 0; pixel < removed.length; pixel++) {
    const place = placeOf(frame, pixel);
    // Right of a cut that runs down is negative, below a cut across is positive.
    const column = cutsPassed(down, place, -1) - 1;
    if (column < 0 || column >= squares) continue;
    const row = cutsPassed(across, place, 1) - 1;
    if (row < 0 || row >= squares) continue;
    const count = counts[row * squares + column]!;
    count.all++;
    count.removed += removed[pixel]!;
  }
  const all = counts.reduce((sum, count) => sum + count.all, 0);
  return {
    removedPercent: (100 * counts.reduce((sum, count) => sum + count.removed, 0)) / all,
    squarePercents: counts.map((count) => (count.all === 0 ? 0 : (100 * count.removed) / count.all)),
  };
}

function cutsPassed(lines: readonly Ruled[], place: Point, sign: 1 | -1): number {
  let passed = 0;
  for (const { off } of lines) if (sign * at(off, place) >= 0) passed++;
  return passed;
}

export type XRemoval = {
  /** Of the band along both cuts, as wide to either side as the widest jagged class. */
  removedPercent: number;
  /** Widest removal to either side of a cut, the widest fiftieth left aside, mm. */
  jagWidthMm: number;
  /** Of what lies within the four ends but farther from the cuts than the band, %: all of it kept while edges are only jagged. */
  farPercent: number;
  /** Of the millimetre just outside the four ends, farther from the cuts than the band, %. */
  outsidePercent: number;
  /** Of each arm's band, from the first corner clockwise, %. */
  flagPercents: number[];
};

/** The band assessed along an X, mm to either side: the widest jagged class of the scale. */
export const xBandMm = 3.2;
const stationMm = 0.25;
const outsideMm = 1;

/** Along an X of two crossing cuts, mm. */
export function xRemoval(frame: TapeFrame, removed: Uint8Array, cuts: readonly [CutLine, CutLine]): XRemoval {
  const [one, other] = cuts;
  const hull = [one.from, other.from, one.to, other.to];
  const counts = { band: { all: 0, removed: 0 }, far: { all: 0, removed: 0 }, outside: { all: 0, removed: 0 } };
  const flags = Array.from({ length: 4 }, () => ({ all: 0, removed: 0 }));
  const add = (count: { all: number; removed: number }, at: number) => {
    count.all++;
    count.removed += removed[at]!;
  };
  for (let at = 0; at < removed.length; at++) {
    const place = placeOf(frame, at);
    const near = [one, other].map((cut) => offCut(cut, place));
    const nearer = Math.abs(near[0]!.offMm) <= Math.abs(near[1]!.offMm) ? 0 : 1;
    const { offMm, along } = near[nearer]!;
    if (Math.abs(offMm) > xBandMm) {
      const beyondMm = beyondHull(hull, place);
      if (beyondMm <= 0) add(counts.far, at);
      else if (beyondMm < outsideMm) add(counts.outside, at);
    } else if (along >= 0 && along <= 1) {
      add(counts.band, at);
      // Arms clockwise from the first corner: start of the first cut, start of the second, end of the first, end of the second.
      add(flags[nearer === 0 ? (along < 0.5 ? 0 : 2) : along < 0.5 ? 1 : 3]!, at);
    }
  }
  const percent = ({ all, removed: gone }: { all: number; removed: number }) => (all === 0 ? 0 : (100 * gone) / all);
  return {
    removedPercent: percent(counts.band),
    jagWidthMm: jagWidth(frame, removed, cuts),
    farPercent: percent(counts.far),
    outsidePercent: percent(counts.outside),
    flagPercents: flags.map(percent),
  };
}

/** The width that all but the widest fiftieth of the places along the cuts keep within, mm. */
function jagWidth(frame: TapeFrame, removed: Uint8Array, cuts: readonly [CutLine, CutLine]): number {
  const widths = cuts.flatMap((cut, at) => {
    const other = cuts[1 - at]!;
    const length = Math.hypot(cut.to[0] - cut.from[0], cut.to[1] - cut.from[1]);
    const along: Point = [(cut.to[0] - cut.from[0]) / length, (cut.to[1] - cut.from[1]) / length];
    const stations = Math.floor(length / stationMm);
    return Array.from({ length: stations }, (_, nth) => (nth + 0.5) * stationMm).flatMap((far) =>
      [1, -1].flatMap((side) => {
        const start: Point = [cut.from[0] + along[0] * far, cut.from[1] + along[1] * far];
        const width = widthFrom(frame, removed, start, [-along[1] * side, along[0] * side], other);
        return width === null ? [] : [width];
      }),
    );
  });
  const sorted = widths.sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(0.98 * sorted.length))] ?? 0;
}

/** How far removal reaches from a cut, mm; null where it runs into what belongs to the other cut. */
function widthFrom(frame: TapeFrame, removed: Uint8Array, start: Point, out: Point, other: CutLine): number | null {
  const { extent, pxPerMm, image } = frame;
  const step = 0.5 / pxPerMm;
  let width = 0;
  for (let far = step; far < 12; far += step) {
    const place: Point = [start[0] + out[0] * far, start[1] + out[1] * far];
    if (Math.abs(offCut(other, place).offMm) < far) return null;
    const x = Math.floor((place[0] - extent.leftMm) * pxPerMm);
    const y = Math.floor((place[1] - extent.topMm) * pxPerMm);
    if (x < 0 || y < 0 || x >= image.widthPx || y >= image.heightPx) return width;
    if (removed[y * image.widthPx + x] === 1) width = far;
    // A thread of paint a fifth of a mm wide does not end the flake.
    else if (far - width > 0.2) return width;
  }
  return width;
}

/** How far a place lies outside the corners' outline (clockwise as seen), mm; negative within. */
function beyondHull(corners: readonly Point[], [x, y]: Point): number {
  return Math.max(
    ...corners.map(([ax, ay], at) => {
      const [bx, by] = corners[(at + 1) % corners.length]!;
      return ((by - ay) * (x - ax) - (bx - ax) * (y - ay)) / Math.hypot(bx - ax, by - ay);
    }),
  );
}
