/** The same coupons in other blocks, simulated side by side, to take the one that can show more. */
import { draggedTrials } from "../../core/trial/chance-curve.ts";
import { percentWords } from "../../core/trial/chance-words.ts";
import { layoutsOf, type OtherLayout, withLayout } from "../../core/trial/other-layouts.ts";
import type { BetterOnes } from "../../core/trial/plan-assumptions.ts";
import { hasOwnCoupons } from "../../core/trial/read-coupons.ts";
import { simulateInParts } from "../../core/trial/simulate-in-parts.ts";
import { type SimulatedShare, simulatedChances } from "../../core/trial/simulation-tally.ts";
import { Scroll } from "../parts/scroll.tsx";
import { chanceText } from "../text/chance.ts";
import { type ChancePlan, trialAt } from "./chance-plan.ts";
import { LongSimulation } from "./long-simulation.tsx";
import { type SimulationPool, simulationHands } from "./simulation-pool.ts";
import type { LongWork } from "./use-simulated.ts";

type LayoutChance = { layout: OtherLayout; chances: { line: BetterOnes; each: SimulatedShare | null }[] };

type Props = {
  plan: ChancePlan;
  each: number;
  lines: readonly BetterOnes[];
  pool: SimulationPool;
  onBlocks: (blocks: number) => void;
};

export function LayoutChances({ plan, each, lines, pool, onBlocks }: Props) {
  const layouts = layoutsOf(each);
  if (layouts.length < 2 || hasOwnCoupons(plan.draft, plan.declared)) return null;
  const work: LongWork<LayoutChance[]> = async ({ signal, progress }) => {
    const all: LayoutChance[] = [];
    let done = 0;
    const rounds = layouts.length * lines.length;
    for (const layout of layouts) {
      const chances: LayoutChance["chances"] = [];
      for (const line of lines) {
        const trial = trialAt({ ...plan, draft: withLayout(plan.draft, layout) }, each, line);
        const handles = { signal, progress: (share: number) => progress((done + share) / rounds) };
        const hands = { trials: draggedTrials, hands: simulationHands, tally: pool.tally };
        const tally = trial && (await simulateInParts(trial, hands, handles));
        chances.push({ line, each: tally && simulatedChances(tally).each });
        done++;
      }
      all.push({ layout, chances });
    }
    return all;
  };
  return (
    <LongSimulation key={each} label={chanceText.layouts} work={work}>
      {(rows) => <LayoutTable rows={rows} planned={plan.draft.blocks} lines={lines} onBlocks={onBlocks} />}
    </LongSimulation>
  );
}

function LayoutTable({
  rows,
  planned,
  lines,
  onBlocks,
}: {
  rows: readonly LayoutChance[];
  planned: number;
  lines: readonly BetterOnes[];
  onBlocks: (blocks: number) => void;
}) {
  return (
    <Scroll label={chanceText.layoutsTitle}>
      <table className="plain">
        <caption>{chanceText.layoutsTitle}</caption>
        <thead>
          <tr>
            <th scope="col">{chanceText.layoutColumns.layout}</th>
            {lines.map((line) => (
              <th key={line} scope="col">
                {chanceText.layoutColumns[line]}
              </th>
            ))}
            <td />
          </tr>
        </thead>
        <tbody>
          {rows.map(({ layout, chances }) => (
            <tr key={layout.blocks}>
              <th scope="row">{chanceText.layout(layout)}</th>
              {chances.map(({ line, each }) => (
                <td key={line}>{each ? percentWords(each) : "-"}</td>
              ))}
              <td>
                {layout.blocks === planned ? (
                  chanceText.asPlanned
                ) : (
                  <button
                    type="button"
                    className="quiet"
                    aria-label={chanceText.takeNamed(chanceText.layout(layout))}
                    onClick={() => onBlocks(layout.blocks)}
                  >
                    {chanceText.take}
                  </button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="hint">{chanceText.layoutsNote}</p>
    </Scroll>
  );
}
