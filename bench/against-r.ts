/**
 * How quick the statistics are beside R, in one run on one machine, and whether both give the same numbers.
 *
 * Needs R with survival, coin, exactRankTests and jsonlite (Debian: r-base-core r-cran-survival r-cran-coin r-cran-exactranktests
 * r-cran-jsonlite).
 *
 *   npx rolldown bench/against-r.ts --platform node --file /tmp/against-r.mjs
 *   node /tmp/against-r.mjs bench/against-r.R > docs/speed.md
 *
 * Seconds are processor seconds of each program after it has started and loaded its packages, so other work on the machine hardly counts.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { seededRandom } from "../src/core/numeric/random.ts";
import { permutationMeans } from "../src/core/statistics/permutation-means.ts";
import { drawnRearrangements } from "../src/core/statistics/rearrangement-test.ts";
import { shiftedRankSum } from "../src/core/statistics/shift-by-ranks.ts";
import { wilcoxonExact } from "../src/core/statistics/wilcoxon-exact.ts";
import { answerQuestion } from "../src/core/trial/answer-question.ts";
import type { Question } from "../src/core/trial/question.ts";
import { knownLayout, shownComparisons } from "../src/core/trial/shown-comparisons.ts";
import { drawFrom, type InventedTrial, inventedQuestion } from "./invented-trials.ts";

const simulationDraws = 499;

/** Processor seconds of one call, from as many as fill a second. */
function timed<Result>(run: () => Result, leastS = 1): { result: Result; seconds: number } {
  const result = run();
  const start = process.cpuUsage();
  for (let runs = 1; ; runs++) {
    run();
    const { user, system } = process.cpuUsage(start);
    if (user + system >= 1e6 * leastS) return { result, seconds: (user + system) / 1e6 / runs };
  }
}

const sixByEight: InventedTrial = { kind: "time", perBlock: null, factors: [1, 3, 3, 3, 1, 1], n: 8 };

type ExactCase = {
  method: "stratified" | "rank sum" | "means";
  title: string;
  values: number[];
  groups: string[];
  blocks: string[];
};

/** Whole numbers with ties: of `scale` different ones. */
function exactCase(method: ExactCase["method"], each: number, blocks: number, scale: number): ExactCase {
  const random = seededRandom(100 * each + blocks);
  const places = Array.from({ length: 2 * each * blocks }, (_, at) => at);
  return {
    method,
    title: `${blocks === 1 ? "" : `${blocks} blocks of `}${each} against ${each}, ${scale} different values`,
    values: places.map((at) => Math.floor(scale * random.next()) + (at % 2 === 0 && random.next() < 0.3 ? 1 : 0)),
    groups: places.map((at) => (at % 2 === 0 ? "first" : "second")),
    blocks: places.map((at) => `block ${Math.floor(at / (2 * each))}`),
  };
}

const exactCases = [
  exactCase("stratified", 2, 3, 20),
  exactCase("stratified", 1, 8, 20),
  exactCase("stratified", 5, 4, 20),
  exactCase("stratified", 8, 6, 40),
  exactCase("stratified", 20, 3, 40),
  exactCase("rank sum", 8, 1, 12),
  exactCase("rank sum", 30, 1, 40),
  exactCase("means", 8, 1, 200),
  exactCase("means", 20, 1, 200),
];

function exactP({ method, values, groups, blocks }: ExactCase): number {
  const of = (group: string) => values.filter((_, at) => groups[at] === group);
  const [first, second] = [of("first"), of("second")];
  if (method === "rank sum") return wilcoxonExact({ first, second }).exactP;
  if (method === "means") return permutationMeans({ first, second }).exactP;
  const blocked = (group: string) =>
    values.flatMap((value, at) => (groups[at] === group ? [{ value, block: blocks[at]! }] : []));
  return shiftedRankSum(blocked("first"), blocked("second"), 0).twoSided;
}

type Simulation = { factors: number[]; n: number; trials: number; trialsInR: number };
const simulations: Simulation[] = [
  { factors: [1, 3], n: 6, trials: 10_000, trialsInR: 10_000 },
  { factors: [1, 3, 1], n: 8, trials: 10_000, trialsInR: 1000 },
  { factors: [1, 3, 3, 3, 1, 1], n: 8, trials: 2000, trialsInR: 200 },
];

/** Share of trials in which the first finish is shown to beat the control. */
function simulated({ factors, n, trials }: Simulation): { power: number; seconds: number } {
  const draw = drawFrom(1);
  const trial: InventedTrial = { kind: "time", perBlock: null, factors, n };
  // No margin: R does not test equivalence either.
  const asked = (seed: number) => ({ ...inventedQuestion(trial, draw, seed), margin: null });
  const layout = knownLayout(asked(0));
  const start = process.cpuUsage();
  let shown = 0;
  for (let one = 0; one < trials; one++) {
    const found = shownComparisons(asked(one + 1), { draws: simulationDraws }, layout);
    if (found.some(({ first, second }) => first === "finish 1" && second === "control")) shown++;
  }
  const { user, system } = process.cpuUsage(start);
  return { power: shown / trials, seconds: (user + system) / 1e6 };
}

type FromR = {
  versions: Record<string, string>;
  findings: {
    result: { adjusted: { control: number[]; among: number[] }; ratios: (number | null)[][] };
    seconds: number;
  };
  exact: { result: number; seconds: number }[];
  simulations: { power: number; seconds: number }[];
};

function askR(script: string, question: Question): FromR {
  const file = join(mkdtempSync(join(tmpdir(), "against-r-")), "cases.json");
  const trial = question.coupons.flatMap(({ treatment, datum }) => ("left" in datum ? [{ treatment, ...datum }] : []));
  writeFileSync(
    file,
    JSON.stringify({
      trial,
      draws: drawnRearrangements,
      exact: exactCases,
      simulations: simulations.map(({ factors, n, trialsInR }) => ({ factors, n, trials: trialsInR })),
      simulationDraws,
    }),
  );
  const answer = execFileSync("Rscript", ["--vanilla", script, file], {
    env: { ...process.env, OPENBLAS_NUM_THREADS: "1" },
    maxBuffer: 1e8,
  });
  const parsed: FromR = JSON.parse(answer.toString());
  return parsed;
}

const times = (ratio: number) => (ratio >= 10 ? ratio.toFixed(0) : ratio.toFixed(1));
const inMs = (seconds: number) => `${Number((1000 * seconds).toPrecision(3))} ms`;
const pShown = (p: number) => (p < 1e-4 ? p.toExponential(3) : p.toFixed(5));

function main(): void {
  const question = inventedQuestion(sixByEight, drawFrom(3), 1);
  const own = timed(() => answerQuestion(question));
  const ownExact = exactCases.map((one) => timed(() => exactP(one), 0.5));
  const ownSimulations = simulations.map(simulated);
  const r = askR(process.argv[2] ?? "bench/against-r.R", question);
  const p = own.result.findings.map((finding) => finding.pAdjusted ?? Number.NaN);
  const pOfR = [...Object.values(r.findings.result.adjusted.control), ...r.findings.result.adjusted.among];
  const limits = own.result.findings.slice(0, 5).map(({ effect }) => effect);
  const lines = [
    "# Speed beside R",
    "",
    "One run of `bench/against-r.ts` (its head says how); processor seconds of both programs on the same machine, start and loading of",
    "packages left out. A ratio of 10: R takes ten times as long.",
    "",
    `Machine: ${cpus()[0]?.model ?? "?"}, ${cpus().length} cores, other work going on. Node ${process.version}; ${Object.entries(
      r.versions,
    )
      .map(([name, version]) => `${name === "R" ? "" : `${name} `}${version}`)
      .join(", ")}.`,
    "",
    "| row | here | R | ratio | the same answer? |",
    "|---|---|---|---|---|",
    `| findings of a trial of 6 x 8 coupons, weekly looks | ${inMs(own.seconds)} | ${inMs(r.findings.seconds)} | ${times(r.findings.seconds / own.seconds)} | largest difference of an adjusted p ${Math.max(...p.map((one, at) => Math.abs(one - pOfR[at]!))).toFixed(4)}; of a limit of a time ratio ${limitsDiffer(limits, r.findings.result.ratios)} |`,
    ...exactCases.map((one, at) => {
      const [here, there] = [ownExact[at]!, r.exact[at]!];
      return `| exact ${one.method === "means" ? "permutation of means" : one.method === "stratified" ? "stratified rank test" : "rank sum"}: ${one.title} | ${inMs(here.seconds)} | ${inMs(there.seconds)} | ${times(there.seconds / here.seconds)} | p ${pShown(here.result)} and ${pShown(there.result)} |`;
    }),
    ...simulations.map((one, at) => {
      const [here, there] = [ownSimulations[at]!, r.simulations[at]!];
      const [each, eachInR] = [here.seconds / one.trials, there.seconds / one.trialsInR];
      return `| 10 000 simulated trials, ${one.factors.length} treatments of ${one.n}, ${simulationDraws} rearrangements | ${(10_000 * each).toFixed(1)} s | ${(10_000 * eachInR).toFixed(0)} s | ${times(eachInR / each)} | power ${(100 * here.power).toFixed(1)} and ${(100 * there.power).toFixed(1)} % |`;
    }),
    "",
    notes,
  ];
  console.log(lines.join("\n"));
}

function limitsDiffer(
  effects: readonly ({ lower: number | null; upper: number | null } | null)[],
  ratios: readonly (readonly (number | null)[])[],
): string {
  // R's columns stand by place, its rows are value, lower and upper; the first pairs are those with the control, control first.
  const differences = effects.flatMap((effect, at) =>
    [effect?.lower, effect?.upper].flatMap((end, side) => {
      const other = ratios[side + 1]?.[at];
      return end == null || other == null ? [] : [Math.abs(end / other - 1)];
    }),
  );
  return `${(100 * Math.max(...differences)).toPrecision(2)} %`;
}

const notes = `What is compared:

- **Findings.** Here: everything that a user gets: units, closed testing against the control and among the finishes with 19 999
  rearrangements of each set too large to be counted, Weibull fit with profile limits of all 15 ratios, equivalence, audit, sentences,
  the next trial. R: Turnbull scores from \`survfit\`, the same closed testing (rearrangements as one sort of a matrix, pairs by
  \`combn\`), \`survreg\` with profile limits through an offset. Not in R: equivalence, audit, caps, sentences, the next trial. No package
  there answers the whole question.
- **Exact tests.** \`coin::wilcox_test\` with blocks and \`exact()\` (ranks over all blocks, rearranged within them);
  \`exactRankTests::wilcox.exact\` and \`perm.test\`. Much of the time of a small test in R goes into formulas and objects.
- **Simulated trials.** The same model, statistic and number of rearrangements, fresh ones for each trial and set; pairs are counted
  whole in both. Here: what the plan page runs, which draws only until p is certain to be above 5 % and leaves out sets that no longer
  matter. R: whole matrices for the rearrangements of a set, scores in closed form on the common calendar, sets left out likewise. R is
  timed on fewer trials and scaled. Not tried: one fixed set of rearrangements for all trials as one matrix product, which makes R
  quicker and its trials dependent on one another.`;

main();
