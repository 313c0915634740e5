/** The curve, its handle, its sentences, and what else the simulation can be asked. */
import { type PointerEvent, useMemo, useRef, useState } from "react";
import { curvePoints, draggedTrials, mostCoupons } from "../../core/trial/chance-curve.ts";
import { assumptionWords, chanceSentence, looksCostSentence, wantedChance } from "../../core/trial/chance-words.ts";
import type { BetterOnes } from "../../core/trial/plan-assumptions.ts";
import { withCoupons } from "../../core/trial/read-coupons.ts";
import { simulatedTruths } from "../../core/trial/simulated-plan.ts";
import { type SimulatedChances, simulatedChances } from "../../core/trial/simulation-tally.ts";
import { ChanceFigure, type ChancePoint } from "../../report/figures/chance-figure.tsx";
import { chancePlaces } from "../../report/figures/chance-places.ts";
import "../../report/figures/figures.css";
import { useDrawnWidth } from "../findings/drawn-width.ts";
import { chanceText } from "../text/chance.ts";
import type { ChancePlan } from "./chance-plan.ts";
import { LayoutChances } from "./layout-chances.tsx";
import { SmallestFactor } from "./smallest-factor.tsx";
import { type ChanceTallies, pointKey, useChances } from "./use-chances.ts";

export function ChanceBoard({
  plan: said,
  coupons: { each, unequal },
  onEach,
  onBlocks,
}: {
  /** A ChancePlan as text. */
  plan: string;
  coupons: { each: number; unequal: boolean };
  onEach: (each: number) => void;
  onBlocks: (blocks: number) => void;
}) {
  const plan = useMemo(() => withoutCoupons(JSON.parse(said)), [said]);
  const finishes = plan.draft.treatments.filter((one) => one.role !== "witness").length - 1;
  const lines = simulatedTruths(plan.declared, finishes);
  const [going, setGoing] = useState(true);
  const known = useChances(JSON.stringify(plan), { handle: each, lines, going });
  const chancesAt = (line: BetterOnes | "daily") => chancesOf(known.tallies, each, line);
  const asked = { response: plan.declared, size: plan.size, each, finishes };
  const sentences = lines.flatMap((better) => {
    const chances = chancesAt(better);
    return chances ? [chanceSentence({ ...asked, better }, chances)] : [];
  });
  const [one, daily] = [chancesAt("one"), chancesAt("daily")];
  const dear = plan.declared.response === "time to first rust" && one && daily && looksCostSentence(one, daily);
  const trials = Math.min(...lines.map((line) => known.tallies.get(pointKey(each, line))?.trials ?? 0));
  return (
    <div className="chance-board">
      <Curve {...{ tallies: known.tallies, lines, each, onEach }} sentence={sentences.join(" ")} />
      <div className="chance-said" role="status" aria-busy={known.working}>
        {sentences.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {trials > 0 && lines.every((line) => chancesAt(line)?.each?.share === 0) && <p>{chanceText.nothing}</p>}
        {dear && <p>{dear}</p>}
        {unequal && <p className="hint">{chanceText.unequal(each)}</p>}
        {known.failure !== null && <p className="wrong">{chanceText.broken(known.failure)}</p>}
      </div>
      <p className="hint chance-state">
        {known.working
          ? chanceText.working(trials, draggedTrials)
          : going
            ? chanceText.done(trials)
            : chanceText.stopped}{" "}
        {(known.working || !going) && (
          <button type="button" className="quiet" onClick={() => setGoing(!going)}>
            {going ? chanceText.stop : chanceText.goOn}
          </button>
        )}
      </p>
      <details className="more">
        <summary>{chanceText.assumedTitle}</summary>
        <p className="inside">
          {assumptionWords(plan.declared, plan.assumed, plan.draft.blocks > 1)} {chanceText.band}
        </p>
      </details>
      {known.pool && (
        <>
          <SmallestFactor key={`factor ${said}`} plan={plan} each={each} lines={lines} pool={known.pool} />
          <LayoutChances
            key={`layouts ${said}`}
            plan={plan}
            each={each}
            lines={lines}
            pool={known.pool}
            onBlocks={onBlocks}
          />
        </>
      )}
    </div>
  );
}

/** The same plan whatever the handle says, so that moving it keeps what was simulated. */
function withoutCoupons(plan: ChancePlan): ChancePlan {
  return { ...plan, draft: withCoupons(plan.draft, Math.max(1, plan.draft.blocks), plan.declared) };
}

function chancesOf(tallies: ChanceTallies, each: number, line: BetterOnes | "daily"): SimulatedChances | null {
  const tally = tallies.get(pointKey(each, line));
  return tally ? simulatedChances(tally) : null;
}

function Curve({
  tallies,
  lines,
  each,
  onEach,
  sentence,
}: {
  tallies: ChanceTallies;
  lines: readonly BetterOnes[];
  each: number;
  onEach: (each: number) => void;
  sentence: string;
}) {
  const frame = useRef<HTMLDivElement>(null);
  const widthPx = useDrawnWidth(frame);
  const most = Math.max(mostCoupons, each);
  const points = [...new Set([...curvePoints, each])].flatMap((at) =>
    lines.flatMap((line): ChancePoint[] => {
      const chance = chancesOf(tallies, at, line)?.each;
      return chance ? [{ each: at, line, chance }] : [];
    }),
  );
  const place = chancePlaces({ most, widthPx: widthPx ?? 0 });
  const follow = (event: PointerEvent<HTMLDivElement>) => {
    if (event.buttons !== 1 && event.type !== "pointerdown") return;
    const wanted = place.eachAt(event.clientX - event.currentTarget.getBoundingClientRect().left);
    if (wanted !== each) onEach(wanted);
  };
  return (
    <div ref={frame} className="chance-curve">
      {widthPx !== null && (
        <>
          {/* The range control below says and does the same by keyboard. */}
          <div className="chance-drag" onPointerDown={follow} onPointerMove={follow}>
            <ChanceFigure
              points={points}
              handle={each}
              most={most}
              widthPx={widthPx}
              wanted={wantedChance}
              title={chanceText.figure(each)}
            />
          </div>
          <input
            type="range"
            className="chance-handle"
            style={{ marginLeft: place.left - 14, width: place.right - place.left + 28 }}
            min={1}
            max={most}
            step={1}
            value={each}
            aria-label={chanceText.handle}
            aria-valuetext={chanceText.handleValue(each, sentence)}
            onChange={(event) => onEach(Number(event.target.value))}
          />
        </>
      )}
    </div>
  );
}
