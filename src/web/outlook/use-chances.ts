/** The curve of chances, simulated beside the page: where the handle stands first, then the rest, point by point. */
import { useEffect, useRef, useState } from "react";
import {
  type ChanceLine,
  type ChancePart,
  curvePoints,
  draggedTrials,
  nextChancePart,
} from "../../core/trial/chance-curve.ts";
import type { BetterOnes } from "../../core/trial/plan-assumptions.ts";
import type { SimulatedTrial } from "../../core/trial/simulated-trial.ts";
import { addedTallies, type SimulationTally } from "../../core/trial/simulation-tally.ts";
import { type ChancePlan, trialAt } from "./chance-plan.ts";
import { type SimulationPool, simulationHands, simulationPool } from "./simulation-pool.ts";

export type ChanceTallies = ReadonlyMap<string, SimulationTally>;
export const pointKey = (each: number, line: ChanceLine) => `${each} ${line}`;

type Known = { plan: string | null; tallies: ChanceTallies; failure: string | null };
const nothing = (plan: string | null): Known => ({ plan, tallies: new Map(), failure: null });

/** `plan`: a ChancePlan as text, so that the same plan typed anew is not simulated anew; null: nothing to simulate yet. */
export function useChances(
  plan: string | null,
  { handle, lines, going }: { handle: number; lines: readonly BetterOnes[]; going: boolean },
) {
  const [known, setKnown] = useState(() => nothing(plan));
  const [working, setWorking] = useState(false);
  const claimed = useRef({ plan, trials: new Map<string, number>() });
  const pool = usePool(plan !== null);
  const several = lines.length > 1;

  useEffect(() => {
    if (claimed.current.plan !== plan) {
      claimed.current = { plan, trials: new Map() };
      setKnown(nothing(plan));
    }
    if (plan === null || pool === null || !going) return;
    const { trials } = claimed.current;
    const said: ChancePlan = JSON.parse(plan);
    const curve = {
      handle,
      lines: several ? (["one", "all"] as const) : (["one"] as const),
      points: curvePoints,
      trials: draggedTrials,
      daily: true,
    };
    const drawn = new Map<string, SimulatedTrial | null>();
    const drawnAt = ({ each, line }: ChancePart) => {
      const key = pointKey(each, line);
      const trial = drawn.get(key) ?? trialAt(said, each, line);
      drawn.set(key, trial);
      return trial;
    };
    let stopped = false;
    const work = async () => {
      while (!stopped) {
        const part = nextChancePart(curve, (each, line) => trials.get(pointKey(each, line)) ?? 0);
        if (part === null) return;
        const key = pointKey(part.each, part.line);
        const trial = drawnAt(part);
        trials.set(key, trial === null ? Number.POSITIVE_INFINITY : part.to);
        if (trial === null) continue;
        const tally = await pool.tally(trial, part);
        setKnown((before) => (before.plan === plan ? withTally(before, key, tally) : before));
      }
    };
    setWorking(true);
    Promise.all(Array.from({ length: simulationHands }, work))
      .catch((error: unknown) => {
        if (!stopped) setKnown((before) => ({ ...before, failure: String(error) }));
      })
      .finally(() => {
        if (!stopped) setWorking(false);
      });
    return () => {
      stopped = true;
    };
  }, [plan, pool, handle, several, going]);

  const current = known.plan === plan ? known : nothing(plan);
  return { ...current, working: working && going, pool };
}

function withTally(known: Known, key: string, tally: SimulationTally): Known {
  const before = known.tallies.get(key);
  return { ...known, tallies: new Map(known.tallies).set(key, before ? addedTallies(before, tally) : tally) };
}

/** Started when the first plan is there, ended with the page. */
function usePool(wanted: boolean): SimulationPool | null {
  const [pool, setPool] = useState<SimulationPool | null>(null);
  useEffect(() => {
    if (!wanted) return;
    const started = simulationPool();
    setPool(started);
    return () => {
      setPool(null);
      started.close();
    };
  }, [wanted]);
  return pool;
}
