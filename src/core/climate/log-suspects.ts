/** Readings that are hard to believe. They are reported; stuck and jumping ones still count. */
import { type LogRow, saysTheSame } from "./log-row.ts";
import { isGap } from "./standing-spans.ts";

export type Suspect = { fromMs: number; toMs: number; what: "stuck" | "impossible" | "jump" | "conflict" };

/** Weather does neither (rules of this project). */
export const suspectLimits = { unchangedHours: 12, jumpK: 15, jumpRhPercent: 40, jumpWithinHours: 1 } as const;

const msPerHour = 3_600_000;

/**
 * Runs of readings, in ascending time, in which neither value changed for long enough. A missing value or a gap ends a run.
 *
 * Units    ms since 1970, °C, %; interval in h
 * Source   rule of this project
 * Status   common practice
 */
export function stuckRuns(rows: readonly LogRow[], intervalHours: number): Suspect[] {
  const stuck: Suspect[] = [];
  let first = 0;
  for (let at = 1; at <= rows.length; at++) {
    const goesOn = at < rows.length && followsUnchanged(rows[at - 1]!, rows[at]!, intervalHours);
    if (goesOn) continue;
    const [fromMs, toMs] = [rows[first]!.atMs, rows[at - 1]!.atMs];
    if (toMs - fromMs >= suspectLimits.unchangedHours * msPerHour) stuck.push({ fromMs, toMs, what: "stuck" });
    first = at;
  }
  return stuck;
}

function followsUnchanged(before: LogRow, row: LogRow, intervalHours: number): boolean {
  if (row.tempC === null || row.rhPercent === null) return false;
  return saysTheSame(before, row) && !isGap({ stepHours: (row.atMs - before.atMs) / msPerHour, intervalHours });
}

/**
 * Jumps between readings, in ascending time, that lie within an hour; one jump is told once, by its nearest two readings.
 *
 * Units    ms since 1970, °C, %
 * Source   rule of this project
 * Status   common practice
 */
export function jumpsIn(rows: readonly LogRow[]): Suspect[] {
  const jumps: Suspect[] = [];
  for (const [at, row] of rows.entries())
    for (let before = at - 1; before >= 0 && isWithinAnHour(rows[before]!, row); before--) {
      if (!isJump(rows[before]!, row)) continue;
      const fromMs = rows[before]!.atMs;
      const told = jumps.at(-1);
      if (!told || fromMs >= told.toMs) jumps.push({ fromMs, toMs: row.atMs, what: "jump" });
      break;
    }
  return jumps;
}

const isWithinAnHour = (before: LogRow, row: LogRow): boolean =>
  row.atMs - before.atMs <= suspectLimits.jumpWithinHours * msPerHour;

function isJump(before: LogRow, row: LogRow): boolean {
  const apart = (one: number | null, other: number | null) =>
    one === null || other === null ? 0 : Math.abs(one - other);
  return (
    apart(before.tempC, row.tempC) > suspectLimits.jumpK ||
    apart(before.rhPercent, row.rhPercent) > suspectLimits.jumpRhPercent
  );
}
