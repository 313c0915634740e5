/** Two workers that simulate on this device, no server needed; each takes one part at a time. */
import type { TallyPart } from "../../core/trial/simulate-in-parts.ts";
import type { SimulationTally } from "../../core/trial/simulation-tally.ts";
import type { SimulationAnswer, SimulationTask } from "./simulation-worker.ts";

export const simulationHands = 2;

export type SimulationPool = { tally: TallyPart; close: () => void };

type Waiting = { done: (tally: SimulationTally) => void; failed: (error: Error) => void };

export function simulationPool(): SimulationPool {
  const waiting = new Map<number, Waiting>();
  const workers = Array.from({ length: simulationHands }, () => {
    const worker = new Worker(new URL("./simulation-worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = ({ data }: MessageEvent<SimulationAnswer>) => {
      const asked = waiting.get(data.id);
      waiting.delete(data.id);
      if ("tally" in data) asked?.done(data.tally);
      else asked?.failed(new Error(data.failure));
    };
    worker.onerror = ({ message }) => {
      for (const asked of waiting.values()) asked.failed(new Error(message));
      waiting.clear();
    };
    return worker;
  });
  let next = 0;
  return {
    tally: (trial, range) =>
      new Promise((done, failed) => {
        const task: SimulationTask = { id: next++, trial, range };
        waiting.set(task.id, { done, failed });
        workers[task.id % workers.length]!.postMessage(task);
      }),
    close: () => {
      for (const worker of workers) worker.terminate();
    },
  };
}
