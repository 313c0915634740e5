/** A simulation handed out in parts to however many hands there are: the sum does not hang on who did which. */
import { requireWhole } from "../input-error.ts";
import type { SimulatedTrial } from "./simulated-trial.ts";
import { addedTallies, emptyTally, type SimulationTally } from "./simulation-tally.ts";

/** One part of the work; the hands of a face take it to a thread or do it themselves. */
export type TallyPart = (trial: SimulatedTrial, range: { from: number; to: number }) => Promise<SimulationTally>;

/** Small enough to stop soon, large enough that handing out costs nothing. */
export const partTrials = 25;

/** `trials` trials, by `hands` at once; `progress` as a share. Rejects with the signal's reason when it is aborted. */
export async function simulateInParts(
  trial: SimulatedTrial,
  { trials, hands, tally }: { trials: number; hands: number; tally: TallyPart },
  { signal, progress }: { signal: AbortSignal; progress: (share: number) => void },
): Promise<SimulationTally> {
  requireWhole("trials", trials, 1);
  let next = 0;
  let sum = emptyTally(trial);
  const work = async (): Promise<void> => {
    while (next < trials) {
      signal.throwIfAborted();
      const range = { from: next, to: Math.min(trials, next + partTrials) };
      next = range.to;
      // Awaited first: meanwhile another hand adds to the sum.
      const part = await tally(trial, range);
      sum = addedTallies(sum, part);
      progress(sum.trials / trials);
    }
  };
  await Promise.all(Array.from({ length: hands }, work));
  signal.throwIfAborted();
  return sum;
}
