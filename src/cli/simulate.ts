/** Simulations of the command line: worker threads, progress on standard error, the time they took. Ctrl-C ends them. */
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { Piscina } from "piscina";
import { simulateInParts } from "../core/trial/simulate-in-parts.ts";
import type { SimulatedTrial } from "../core/trial/simulated-trial.ts";
import { type SimulatedChances, type SimulationTally, simulatedChances } from "../core/trial/simulation-tally.ts";
import type { SimulationTask } from "./simulation-worker.ts";

export type Simulate = (trial: SimulatedTrial, what: string) => Promise<SimulatedChances>;

/** Runs `work` with `trials` trials for each simulation it asks for; the threads end with it. */
export async function withSimulation<Result>(
  trials: number,
  work: (simulate: Simulate) => Promise<Result>,
): Promise<Result> {
  const hands = availableParallelism();
  const pool = new Piscina<SimulationTask, SimulationTally>({
    filename: fileURLToPath(new URL("./simulation-worker.js", import.meta.url)),
    maxThreads: hands,
  });
  const started = performance.now();
  const signal = new AbortController().signal;
  try {
    const result = await work(async (trial, what) => {
      const progress = progressLine(what);
      const tally = await simulateInParts(
        trial,
        { trials, hands, tally: (part, range) => pool.run({ trial: part, range }) },
        { signal, progress },
      );
      return simulatedChances(tally);
    });
    console.error(`Simulated in ${((performance.now() - started) / 1000).toFixed(1)} s.`);
    return result;
  } finally {
    await pool.close({ force: true });
  }
}

/** One line that grows on a terminal; elsewhere one line at its end. */
function progressLine(what: string): (share: number) => void {
  return (share) => {
    const percent = `${Math.floor(100 * share)} %`.padStart(5);
    if (process.stderr.isTTY) process.stderr.write(`\r${percent}  ${what}${share >= 1 ? "\n" : ""}`);
    else if (share >= 1) console.error(`${percent}  ${what}`);
  };
}
