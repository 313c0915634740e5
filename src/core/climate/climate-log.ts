/** A logger's rows, put in order and judged: what counts, what is missing, what is suspect. */
import { InputError } from "../input-error.ts";
import { type LogRow, saysTheSame } from "./log-row.ts";
import { jumpsIn, type Suspect, stuckRuns } from "./log-suspects.ts";
import type { ClimateReading } from "./standing-spans.ts";

export type ClimateLog = {
  /** Rows as they came, and those among them that repeated a time. */
  readings: number;
  duplicates: number;
  /** Instant from which the series counts its hours. */
  startMs: number;
  intervalHours: number;
  /** In ascending time, one for each time, what is impossible made null. */
  series: ClimateReading[];
  suspects: Suspect[];
};

/** Outside these a sensor is broken; up to the humidity's upper end it is only a little off, and reads as saturated. */
export const possible = { leastTempC: -60, mostTempC: 80, leastRhPercent: 0, mostRhPercent: 102 } as const;
const saturatedPercent = 100;

const msPerHour = 3_600_000;

/**
 * Puts a log in order. Of two rows at one time the first counts; the interval is the median step.
 *
 * Units    ms since 1970, °C, % in; h from the first reading, °C, % out
 * Source   limits of the possible, of stuck and of jumping readings are rules of this project
 * Status   common practice
 * Refuses  fewer than two times: one reading alone does not say how long it stood
 */
export function climateLog(rows: readonly LogRow[]): ClimateLog {
  const { counted, conflicts } = onePerTime(rows);
  if (counted.length < 2) throw new InputError("rows", counted.length, "readings at two times or more");
  const cleared = counted.map((row) => ({ row, possible: isPossible(row) }));
  const kept = cleared.map(({ row, possible: fits }) => ({
    atMs: row.atMs,
    tempC: fits ? row.tempC : null,
    rhPercent: fits && row.rhPercent !== null ? Math.min(saturatedPercent, row.rhPercent) : null,
  }));
  const startMs = kept[0]!.atMs;
  const intervalHours = median(kept.slice(1).map((row, at) => row.atMs - kept[at]!.atMs)) / msPerHour;
  const impossible = runsOf(cleared, ({ possible: fits }) => !fits).map(([first, last]) => ({
    fromMs: counted[first]!.atMs,
    toMs: counted[last]!.atMs,
    what: "impossible" as const,
  }));
  return {
    readings: rows.length,
    duplicates: rows.length - counted.length,
    startMs,
    intervalHours,
    series: kept.map(({ atMs, ...air }) => ({ elapsedHours: (atMs - startMs) / msPerHour, ...air })),
    suspects: [...conflicts, ...impossible, ...stuckRuns(kept, intervalHours), ...jumpsIn(kept)].sort(
      (a, b) => a.fromMs - b.fromMs || a.toMs - b.toMs,
    ),
  };
}

/**
 * Rows whose both values are there and possible: what a shop keeps of a log. How many are left out is told.
 *
 * Units    ms since 1970, °C, %
 * Source   limits of the possible are a rule of this project
 * Status   common practice
 */
export function completeRows(rows: readonly LogRow[]): {
  complete: { atMs: number; tempC: number; rhPercent: number }[];
  leftOut: number;
} {
  const complete = rows
    .filter(isPossible)
    .flatMap(({ atMs, tempC, rhPercent }) =>
      tempC === null || rhPercent === null ? [] : [{ atMs, tempC, rhPercent }],
    );
  return { complete, leftOut: rows.length - complete.length };
}

/** The first row of each time, in time's order, and the times at which another row says otherwise. */
function onePerTime(rows: readonly LogRow[]): { counted: LogRow[]; conflicts: Suspect[] } {
  const byTime = new Map<number, LogRow>();
  const conflicts = new Map<number, Suspect>();
  for (const row of rows) {
    const first = byTime.get(row.atMs);
    if (!first) byTime.set(row.atMs, row);
    else if (!saysTheSame(first, row)) conflicts.set(row.atMs, { fromMs: row.atMs, toMs: row.atMs, what: "conflict" });
  }
  const counted = [...byTime.values()].sort((a, b) => a.atMs - b.atMs);
  return { counted, conflicts: [...conflicts.values()] };
}

function isPossible({ tempC, rhPercent }: LogRow): boolean {
  const { leastTempC, mostTempC, leastRhPercent, mostRhPercent } = possible;
  return (
    (tempC === null || (tempC >= leastTempC && tempC <= mostTempC)) &&
    (rhPercent === null || (rhPercent >= leastRhPercent && rhPercent <= mostRhPercent))
  );
}

/** First and last index of each unbroken run. */
function runsOf<T>(list: readonly T[], belongs: (one: T) => boolean): [number, number][] {
  const runs: [number, number][] = [];
  for (const [at, one] of list.entries()) {
    if (!belongs(one)) continue;
    const last = runs.at(-1);
    if (last && last[1] === at - 1) last[1] = at;
    else runs.push([at, at]);
  }
  return runs;
}

function median(steps: readonly number[]): number {
  const sorted = [...steps].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
