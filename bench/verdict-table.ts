/** The kept pieces as the Markdown of docs/verdict-rates.md. */
import { verdicts } from "../src/core/trial/finding.ts";
import type { Cell, CellName, Piece } from "./verdict-piece.ts";
import { type VerdictRow, verdictRows } from "./verdict-rows.ts";

const cellNames: readonly CellName[] = ["differControl", "alikeControl", "differOthers", "alikeOthers"];

const opening = `# How often each verdict comes

Simulated trials of known truth, put through the very code that answers a user's trial (\`bench/verdict-rates.ts\`; its head says how
to run it, \`bench/invented-trials.ts\` from what the trials are drawn). Six treatments unless the row says otherwise, one the control;
"factor f": three of the five finishes are f times better. Cells: percent **shown / suggested / not told apart / equivalent / cannot be
told** of the comparisons of that kind; in brackets the numbers of an independent program of the same rules. FW: percent of trials
with a false "shown" anywhere, its Monte Carlo error after it; false equivalent: percent of trials in which a pair that truly differs by
the margin or more was called equivalent. The comparisons of one trial go together, so a percentage near 50 of
400 trials is known to about 2 points, one of 1000 trials to about 1.5.
`;

export function verdictTable(kept: readonly Piece[]): string {
  const parts = [opening];
  for (const section of new Set(verdictRows.map((one) => one.section))) {
    const rows = verdictRows.filter((one) => one.section === section).flatMap((one) => tableRow(one, kept));
    if (rows.length === 0) continue;
    parts.push(
      `## ${section}\n\n| row | trials | against control, differ | against control, alike | among others, differ | among others, alike | FW | false equivalent |\n|---|---|---|---|---|---|---|---|\n${rows.join("\n")}\n`,
    );
  }
  return parts.join("\n");
}

function tableRow({ section, title, expected }: VerdictRow, kept: readonly Piece[]): string[] {
  const pieces = kept.filter((one) => one.title === `${section}: ${title}`);
  if (pieces.length === 0) return [];
  const trials = pieces.reduce((sum, one) => sum + one.trials, 0);
  const cells = cellNames.map((name) => {
    const here = percents(pieces.map((one) => one.cells[name]));
    const there = expected?.[name];
    return here === "-" ? "-" : there === undefined ? here : `${here} (${there})`;
  });
  const share = (of: (one: Piece) => number) => pieces.reduce((sum, one) => sum + of(one), 0) / trials;
  const shown = share((one) => one.falseShown);
  const error = 100 * Math.sqrt((Math.max(shown, 1 / trials) * (1 - shown)) / trials);
  const peer = expected?.falseShown === undefined ? "" : ` (${expected.falseShown})`;
  const equivalent = (100 * share((one) => one.falseEquivalent)).toFixed(1);
  return [
    `| ${title} | ${trials} | ${cells.join(" | ")} | ${(100 * shown).toFixed(1)} ± ${error.toFixed(1)}${peer} | ${equivalent} |`,
  ];
}

function percents(cells: readonly Cell[]): string {
  const counts = verdicts.map((verdict) => cells.reduce((sum, cell) => sum + (cell[verdict] ?? 0), 0));
  const all = counts.reduce((sum, count) => sum + count, 0);
  return all === 0 ? "-" : counts.map((count) => Math.round((100 * count) / all)).join(" ");
}
