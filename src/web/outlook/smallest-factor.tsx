/** The smallest factor that so many coupons would show in 8 trials of 10, found by halving. */
import { draggedTrials } from "../../core/trial/chance-curve.ts";
import { wantedChance } from "../../core/trial/chance-words.ts";
import { marginKind } from "../../core/trial/declared-question.ts";
import type { BetterOnes } from "../../core/trial/plan-assumptions.ts";
import { simulateInParts } from "../../core/trial/simulate-in-parts.ts";
import { simulatedChances } from "../../core/trial/simulation-tally.ts";
import { smallestFactor, smallestFactorRounds } from "../../core/trial/smallest-size.ts";
import { chanceText } from "../text/chance.ts";
import { type ChancePlan, trialAt } from "./chance-plan.ts";
import { LongSimulation } from "./long-simulation.tsx";
import { type SimulationPool, simulationHands } from "./simulation-pool.ts";
import type { LongWork } from "./use-simulated.ts";

type Found = { line: BetterOnes; factor: number | null }[];

export function SmallestFactor(props: {
  plan: ChancePlan;
  each: number;
  lines: readonly BetterOnes[];
  pool: SimulationPool;
}) {
  const { plan, each, lines, pool } = props;
  if (marginKind(plan.declared) !== "factor") return null;
  const work: LongWork<Found> = async ({ signal, progress }) => {
    const found: Found = [];
    let round = 0;
    for (const line of lines) {
      const chanceAt = async (size: number) => {
        const before = round++ / (lines.length * smallestFactorRounds);
        const trial = trialAt({ ...plan, size }, each, line);
        if (trial === null) return 0;
        const handles = {
          signal,
          progress: (share: number) => progress(Math.min(1, before + share / (lines.length * smallestFactorRounds))),
        };
        const tally = await simulateInParts(
          trial,
          { trials: draggedTrials, hands: simulationHands, tally: pool.tally },
          handles,
        );
        return simulatedChances(tally).each?.share ?? 0;
      };
      found.push({ line, factor: await smallestFactor(chanceAt, wantedChance) });
      round = found.length * smallestFactorRounds;
    }
    return found;
  };
  return (
    <LongSimulation key={each} label={chanceText.smallest} work={work}>
      {(found) => (
        <dl className="chance-smallest" aria-label={chanceText.smallest}>
          <p>{chanceText.smallest}</p>
          {found.map(({ line, factor }) => (
            <div key={line}>
              <dt>{chanceText.smallestIs[line]}</dt>
              <dd>{factor === null ? chanceText.smallestNone : chanceText.smallestFound(factor)}</dd>
            </div>
          ))}
        </dl>
      )}
    </LongSimulation>
  );
}
