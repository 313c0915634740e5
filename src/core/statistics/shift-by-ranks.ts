/**
 * How far two groups are shifted against each other, with the limits that the exact rank test within blocks does not reject.
 * Ranks run over all blocks together, ties share theirs, and labels are rearranged within blocks only.
 *
 * Units   those of the values; shares of the rearrangements
 * Source  Hodges and Lehmann 1963; limits by inversion of the exact rank test within blocks
 * Status  computed
 */
import { doubledMidranks } from "./midranks.ts";

export type BlockedValue = { value: number; block: string };

export type RankSumShares = {
  /** At least as far from the mean as observed. */
  twoSided: number;
  /** The first group at least as high as observed. */
  atLeast: number;
  /** The first group at most as high as observed. */
  atMost: number;
};

/** Values closer than this are equal: 0.3 + 0.6 and 0.9 must tie. */
const places = 1e9;

/** Exact shares of the rank sum of the first group, its values shifted down by `shift` beforehand. */
export function shiftedRankSum(
  first: readonly BlockedValue[],
  second: readonly BlockedValue[],
  shift: number,
): RankSumShares {
  const values = [...first.map((one) => one.value - shift), ...second.map((one) => one.value)];
  const ranks = doubledMidranks(values.map((value) => Math.round(value * places) / places));
  const blocks = new Set([...first, ...second].map((one) => one.block));
  let shares = Float64Array.of(1);
  let centre = 0;
  for (const block of blocks) {
    const own = first.flatMap((one, at) => (one.block === block ? [ranks[at]!] : []));
    const other = second.flatMap((one, at) => (one.block === block ? [ranks[first.length + at]!] : []));
    const all = [...own, ...other];
    centre += (own.length * total(all)) / all.length;
    shares = convolved(shares, subsetSumShares(all, own.length));
  }
  return tailShares(shares, total(ranks.slice(0, first.length)), centre);
}

function total(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0);
}

/** Share of the choices of `size` ranks for each sum. */
function subsetSumShares(ranks: readonly number[], size: number): Float64Array<ArrayBuffer> {
  const largest = total([...ranks].sort((a, b) => b - a).slice(0, size));
  const ways = Array.from({ length: size + 1 }, () => new Float64Array(largest + 1));
  ways[0]![0] = 1;
  for (const [seen, rank] of ranks.entries())
    for (let k = Math.min(size, seen + 1); k >= 1; k--) {
      const [into, from] = [ways[k]!, ways[k - 1]!];
      for (let sum = largest; sum >= rank; sum--) into[sum]! += from[sum - rank]!;
    }
  const counts = ways[size]!;
  const all = counts.reduce((sum, count) => sum + count, 0);
  return counts.map((count) => count / all);
}

function convolved(a: Float64Array<ArrayBuffer>, b: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const result = new Float64Array(a.length + b.length - 1);
  for (const [x, share] of a.entries())
    if (share > 0) for (let y = 0; y < b.length; y++) result[x + y]! += share * b[y]!;
  return result;
}

function tailShares(shares: Float64Array, observed: number, centre: number): RankSumShares {
  const distance = Math.abs(observed - centre) - 1e-9;
  let [twoSided, atLeast, atMost] = [0, 0, 0];
  for (const [sum, share] of shares.entries()) {
    if (Math.abs(sum - centre) >= distance) twoSided += share;
    if (sum >= observed) atLeast += share;
    if (sum <= observed) atMost += share;
  }
  return { twoSided: Math.min(1, twoSided), atLeast: Math.min(1, atLeast), atMost: Math.min(1, atMost) };
}

export type Shift = { value: number; lower: number | null; upper: number | null };

/**
 * Median of the differences first less second within blocks (Hodges and Lehmann 1963), and the ends of the shifts whose exact
 * two-sided p is above `alpha`. An end is null where no shift is far enough to be rejected. Where no block holds both groups, the
 * differences between blocks stand in for the median.
 */
export function shiftWithLimits(first: readonly BlockedValue[], second: readonly BlockedValue[], alpha: number): Shift {
  const all = differences(first, second, () => true);
  const within = differences(first, second, (a, b) => a.block === b.block);
  const ends = [...new Set(all)];
  const kept = (shift: number) => shiftedRankSum(first, second, shift).twoSided > alpha + 1e-9;
  return {
    value: median(within.length > 0 ? within : all),
    lower: firstKept(ends, kept, -1),
    upper: firstKept(ends.reverse(), kept, 1),
  };
}

/** Sorted, rounded so that equal ones are equal. */
function differences(
  first: readonly BlockedValue[],
  second: readonly BlockedValue[],
  counts: (a: BlockedValue, b: BlockedValue) => boolean,
): number[] {
  return first
    .flatMap((a) => second.filter((b) => counts(a, b)).map((b) => Math.round((a.value - b.value) * places) / places))
    .sort((a, b) => a - b);
}

function median(sorted: readonly number[]): number {
  const half = sorted.length / 2;
  return (sorted[Math.ceil(half) - 1]! + sorted[Math.floor(half)]!) / 2;
}

/**
 * Walks from outside inwards over the differences `ends` and the gaps between them, where the p can change, to the first shift that
 * is kept. Null when even the outermost gap is.
 */
function firstKept(ends: readonly number[], kept: (shift: number) => boolean, side: 1 | -1): number | null {
  if (kept(ends[0]! + side)) return null;
  for (const [at, end] of ends.entries()) {
    if (kept(end)) return end;
    const next = ends[at + 1];
    if (next !== undefined && kept((end + next) / 2)) return end;
  }
  return ends.at(-1)!;
}
