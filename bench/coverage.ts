/**
 * How often the intervals hold the truth, and how often a p falls at or below a level where there is no difference.
 *
 *   npx rolldown bench/coverage.ts --platform node --file /tmp/coverage.mjs
 *   nice node /tmp/coverage.mjs [--trials 2000] [--verdicts /tmp/verdict-rates.jsonl] > docs/coverage.md
 *
 * The kept pieces of bench/verdict-rates.ts, when named, add the intervals and p of whole findings.
 */
import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { seededRandom } from "../src/core/numeric/random.ts";
import { coverageRows } from "./coverage-rows.ts";
import { drawFrom } from "./invented-trials.ts";
import { uniformityRows } from "./uniformity-rows.ts";
import { type Covered, type Piece, pLevels } from "./verdict-piece.ts";

const { values: options } = parseArgs({
  options: { trials: { type: "string", default: "2000" }, verdicts: { type: "string", default: "" } },
});
const trials = Number(options.trials);

/** Percent with its Monte Carlo error; a share that was counted whole has none. */
function percent(share: number, of: number): string {
  return `${(100 * share).toFixed(1)} ± ${(100 * Math.sqrt(Math.max(share * (1 - share), 1 / of) / of)).toFixed(1)}`;
}

function coverageTable(): string[] {
  const rows = coverageRows.map(({ interval, layout, nominal, share, exact }, at) => {
    if (exact) {
      const { mean, least } = exact();
      return `| ${interval} | ${layout} | ${100 * nominal} | ${(100 * mean).toFixed(1)}, least ${(100 * least).toFixed(1)} | counted whole |`;
    }
    const found = share(trials, drawFrom(1000 + at));
    const without = found.refused === 0 ? "" : `; no fit in ${found.refused}`;
    const kept = found.trials - found.refused;
    return `| ${interval} | ${layout} | ${100 * nominal} | ${percent(found.held / kept, kept)} | ${kept} trials${without} |`;
  });
  return ["| interval | layout | nominal % | holds the truth, % | of |", "|---|---|---|---|---|", ...rows];
}

function uniformityTable(): string[] {
  const levels = pLevels.slice(0, 4);
  const rows = uniformityRows.map(({ test, layout, pOf }, at) => {
    const draw = drawFrom(2000 + at);
    const random = seededRandom(3000 + at);
    const p = Array.from({ length: trials }, () => pOf(draw, random));
    const shares = levels.map((level) => p.filter((one) => one <= level + 1e-9).length / trials);
    return `| ${test} | ${layout} | ${shares.map((share) => percent(share, trials)).join(" | ")} |`;
  });
  return [
    `| test | layout, no difference | ${levels.map((level) => `p ≤ ${level}, %`).join(" | ")} |`,
    `|---|---|${levels.map(() => "---|").join("")}`,
    ...rows,
  ];
}

function ofFindings(file: string): string[] {
  const pieces = readFileSync(file, "utf8")
    .split("\n")
    .filter(Boolean)
    .map((line): Piece => JSON.parse(line));
  const titles = [...new Set(pieces.map((piece) => piece.title))];
  const coverage = titles.flatMap((title) => {
    const own = pieces.filter((piece) => piece.title === title);
    const names = [...new Set(own.flatMap((piece) => Object.keys(piece.covered)))];
    return names.flatMap((name) => {
      const all = own.flatMap((piece) =>
        Object.entries(piece.covered).flatMap(([key, one]) => (key === name ? [one] : [])),
      );
      const sum = (of: (one: Covered) => number) => all.reduce((total, one) => total + of(one), 0);
      const intervals = sum((one) => one.intervals);
      if (intervals === 0) return [];
      const share = sum((one) => one.held) / intervals;
      return [`| ${title} | ${name} | ${(100 * share).toFixed(1)} | ${intervals} |`];
    });
  });
  const uniform = titles.flatMap((title) => {
    const own = pieces.filter((piece) => piece.title === title);
    const all = own.reduce((sum, piece) => sum + piece.alikeP.all, 0);
    if (all === 0) return [];
    const shares = pLevels.map((_, at) => own.reduce((sum, piece) => sum + piece.alikeP.atMost[at]!, 0) / all);
    return [`| ${title} | ${all} | ${shares.map((share) => (100 * share).toFixed(1)).join(" | ")} |`];
  });
  return [
    "## Intervals of whole findings",
    "",
    "From the trials of [verdict-rates.md](verdict-rates.md): all intervals at 95 % of pairs with a plain truth. The pairs of one trial go",
    "together: the error of a row of 6000 intervals is about that of 1000 separate ones, 0.7.",
    "",
    "| row | effect | holds the truth, % | intervals |",
    "|---|---|---|---|",
    ...coverage,
    "",
    "## p of pairs that are truly alike, in whole findings",
    "",
    "The p of the pair alone, not adjusted. Below the level is right: few rearrangements and ties leave few different p. Where one side",
    "comes out wholly at one end no p is given; such pairs are not counted.",
    "",
    `| row | pairs | ${pLevels.map((level) => `p ≤ ${level}, %`).join(" | ")} |`,
    `|---|---|${pLevels.map(() => "---|").join("")}`,
    ...uniform,
  ];
}

const lines = [
  "# How often intervals hold the truth, and p says what it says",
  "",
  "From `bench/coverage.ts` (its head says how). ± is one standard error of the simulation.",
  "",
  "## Intervals",
  "",
  ...coverageTable(),
  "",
  "The median of a Weibull fit is printed without an interval, so it has no row. Profile limits from chi-square are too narrow with few",
  "coupons; a finding's time ratio uses the wider limits of `core/statistics/weibull-time-ratios.ts`.",
  "",
  "## p without a difference",
  "",
  ...uniformityTable(),
  "",
  "Exact tests may stay below a level, since only some p can come; they never pass it. `core/statistics/uniform-under-null.test.ts` counts",
  "this over all allocations.",
  "",
  ...(options.verdicts === "" ? [] : ofFindings(options.verdicts)),
];
console.log(lines.join("\n"));
