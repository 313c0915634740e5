/** The page's pair of hands for simulations: takes a part of the trials, sends back its counts. */
import type { SimulatedTrial } from "../../core/trial/simulated-trial.ts";
import { type SimulationTally, talliedTrials } from "../../core/trial/simulation-tally.ts";

export type SimulationTask = { id: number; trial: SimulatedTrial; range: { from: number; to: number } };
export type SimulationAnswer = { id: number } & ({ tally: SimulationTally } | { failure: string });

const send = (answer: SimulationAnswer) => postMessage(answer);

addEventListener("message", ({ data: { id, trial, range } }: MessageEvent<SimulationTask>) => {
  try {
    send({ id, tally: talliedTrials(trial, range) });
  } catch (error) {
    send({ id, failure: error instanceof Error ? error.message : String(error) });
  }
});
