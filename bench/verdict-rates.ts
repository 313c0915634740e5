/**
 * How often each verdict comes in invented trials whose truth is known: the rules of the findings, held against themselves and against
 * the numbers of an independent program. What it prints stands in docs/verdict-rates.md.
 *
 *   npx rolldown bench/verdict-rates.ts --platform node --file /tmp/verdict-rates.mjs
 *   nice node /tmp/verdict-rates.mjs run --trials 400 --threads 2 --kept /tmp/verdict-rates.jsonl [--only "free, factor 3"]
 *   node /tmp/verdict-rates.mjs table --kept /tmp/verdict-rates.jsonl > docs/verdict-rates.md
 *
 * "run" goes on where it was stopped: each piece of 50 trials is kept as a line of its own, and its seed is its title and number, so
 * neither the number of threads nor an interruption changes a count. 499 rearrangements where they are drawn.
 */
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { isMainThread, parentPort, Worker } from "node:worker_threads";
import { type Piece, pieceOf, trialsPerPiece } from "./verdict-piece.ts";
import { verdictRows } from "./verdict-rows.ts";
import { verdictTable } from "./verdict-table.ts";

type Task = { title: string; piece: number };

function main(): void {
  const { positionals, values: options } = parseArgs({
    allowPositionals: true,
    options: {
      trials: { type: "string", default: "400" },
      threads: { type: "string", default: "2" },
      kept: { type: "string", default: "verdict-rates.jsonl" },
      only: { type: "string", default: "" },
    },
  });
  const kept = readKept(options.kept);
  if (positionals[0] === "table") console.log(verdictTable(kept));
  else run(kept, { ...options, trials: Number(options.trials), threads: Number(options.threads) });
}

function readKept(file: string): Piece[] {
  if (!existsSync(file)) return [];
  const lines = readFileSync(file, "utf8").split("\n").filter(Boolean);
  return lines.map((line): Piece => JSON.parse(line));
}

function run(
  kept: readonly Piece[],
  { trials, threads, only, kept: file }: { trials: number; threads: number; only: string; kept: string },
): void {
  const done = new Set(kept.map(({ title, piece }) => `${title} ${piece}`));
  const titles = verdictRows
    .map(({ section, title }) => `${section}: ${title}`)
    .filter((title) => title.includes(only));
  // Piece after piece over all rows: whenever it is stopped, every row has about as many trials.
  const tasks = Array.from({ length: Math.ceil(trials / trialsPerPiece) }, (_, piece) =>
    titles.map((title): Task => ({ title, piece })),
  )
    .flat()
    .filter(({ title, piece }) => !done.has(`${title} ${piece}`));
  let next = 0;
  let finished = 0;
  for (let thread = 0; thread < threads; thread++) {
    const worker = new Worker(new URL(import.meta.url));
    const give = () => {
      const task = tasks[next++];
      if (task) worker.postMessage(task);
      else worker.terminate();
    };
    worker.on("message", (piece: Piece) => {
      appendFileSync(file, `${JSON.stringify(piece)}\n`);
      finished++;
      console.error(`${finished} of ${tasks.length}: ${piece.title}`);
      give();
    });
    worker.on("error", (error) => {
      throw error;
    });
    give();
  }
}

if (isMainThread) main();
else
  parentPort?.on("message", ({ title, piece }: Task) => {
    const row = verdictRows.find((one) => `${one.section}: ${one.title}` === title);
    if (row) parentPort?.postMessage(pieceOf(row, title, piece));
  });
