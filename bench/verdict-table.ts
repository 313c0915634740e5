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

Where the two programs differ, or a number wants a word:

- FW of "free, factor 3, n 8" (2.9 here, 1.7 there) and of four treatments with factors 1 6 6 1, free, n 6 (3.7 here, at most 3.1
  there): a third program, in R and with none of this code, found 2.6 ± 0.3 in 2500 and 3.6 ± 0.2 in 6000 trials, counting only false
  ones against the control. The numbers here stand; the bracketed ones are too low, and both stay below 5.
- "Cannot be told" with few coupons, or where most of a group came out alike: here the smallest possible p is counted with the ties
  that were seen, and above 0.20 nothing can be told; the other program counted it without ties and called these "not told apart". Of
  three coupons each without a difference that is 20 % of the comparisons against 0 %, of five finishes alike beside a worse control, n 5,
  69 % against 10 %. No "shown" and no "suggested" hangs on it: a p is never below the smallest possible one.
- The interval of a measured difference takes one scatter for the whole trial. Where the control scatters three times as much and has
  3 coupons against 8, it holds the truth in only 86 % ([coverage.md](coverage.md)); an interval by Welch, with each group's own
  scatter, would hold it in 93 % there. It is not printed in its place, because effect and p of a finding share one error by the rules;
  the verdict is guarded by Welch's p already, and the p of Games and Howell among the details has each pair's own scatter.
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
