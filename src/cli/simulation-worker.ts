/** The worker thread of a simulation: one part of the trials in, its counts out. */
import type { SimulatedTrial } from "../core/trial/simulated-trial.ts";
import { type SimulationTally, talliedTrials } from "../core/trial/simulation-tally.ts";

export type SimulationTask = { trial: SimulatedTrial; range: { from: number; to: number } };

export default function work({ trial, range }: SimulationTask): SimulationTally {
  return talliedTrials(trial, range);
}
