/** What the next trial needs, confirmed by simulation on this device: the formula's answer allows for one pair alone. */
import { useMemo } from "react";
import { draggedTrials } from "../../core/trial/chance-curve.ts";
import type { AnsweredQuestion } from "../../core/trial/finding.ts";
import { confirmedUnits, type NextTrial, nextTrialNote, nextTrials } from "../../core/trial/next-trial.ts";
import type { Question } from "../../core/trial/question.ts";
import { simulateInParts } from "../../core/trial/simulate-in-parts.ts";
import { simulatedChances } from "../../core/trial/simulation-tally.ts";
import { wouldTellText } from "../../report/figures/figure-text.ts";
import { LongSimulation } from "../outlook/long-simulation.tsx";
import { simulationHands, simulationPool } from "../outlook/simulation-pool.ts";
import type { LongWork } from "../outlook/use-simulated.ts";
import { findingsText } from "../text/findings.ts";

type Confirmed = { pair: NextTrial; lines: string[] }[];

export function NextTrialPart({ question, answer }: { question: Question; answer: AnsweredQuestion }) {
  const open = useMemo(() => nextTrials(question, answer), [question, answer]);
  if (open.length === 0) return null;
  return (
    <LongSimulation label={findingsText.nextTrial} work={(handles) => confirm(question, open, handles)}>
      {(confirmed) => (
        <section aria-label={findingsText.nextTrialTitle}>
          <h4>{findingsText.nextTrialTitle}</h4>
          <ul>
            {confirmed.map(({ pair, lines }) => (
              <li key={`${pair.first} ${pair.second}`}>
                {findingsText.nextTrialPair(pair.first, pair.second)} {lines.join(" ")}
              </li>
            ))}
          </ul>
          <p className="hint">{nextTrialNote(question, draggedTrials)}</p>
        </section>
      )}
    </LongSimulation>
  );
}

async function confirm(
  question: Question,
  open: readonly NextTrial[],
  { signal, progress }: Parameters<LongWork<Confirmed>>[0],
): Promise<Confirmed> {
  const pool = simulationPool();
  try {
    const confirmed: Confirmed = [];
    for (const [at, pair] of open.entries()) {
      let asked = 0;
      const chanceAt = async (each: number) => {
        // How many numbers will be tried nobody knows: each brings the bar half of the way that is left.
        const before = 1 - 0.5 ** asked;
        const step = 0.5 ** ++asked;
        const tally = await simulateInParts(
          pair.trialOf(each),
          { trials: draggedTrials, hands: simulationHands, tally: pool.tally },
          { signal, progress: (share) => progress((at + before + share * step) / open.length) },
        );
        const { pairs } = simulatedChances(tally);
        return pairs.find((one) => one.first === pair.first && one.second === pair.second)?.shown?.share ?? 0;
      };
      confirmed.push({ pair, lines: wouldTellText(await confirmedUnits(question, pair.start, chanceAt)) });
    }
    return confirmed;
  } finally {
    pool.close();
  }
}
