/** The curve of a plan with the trials that paper asks for: the plan's own number of coupons first, stopped by a press or by leaving. */
import { useEffect, useRef, useState } from "react";
import { type ChancePart, curvePoints, nextChancePart, printedTrials } from "../../core/trial/chance-curve.ts";
import type { BetterOnes } from "../../core/trial/plan-assumptions.ts";
import { readCoupons } from "../../core/trial/read-coupons.ts";
import { simulatedTruths } from "../../core/trial/simulated-plan.ts";
import type { KeptPoint } from "../../core/trial/simulation.ts";
import { addedTallies, type SimulationTally, simulatedChances } from "../../core/trial/simulation-tally.ts";
import { type ChancePlan, trialAt } from "./chance-plan.ts";
import { type SimulationPool, simulationHands, simulationPool } from "./simulation-pool.ts";
import { pointKey } from "./use-chances.ts";

type Printed = {
  state: "idle" | "working" | "ended" | "broken";
  points: KeptPoint[];
  /** Of all trials that were wanted. */
  share: number;
  why: string | null;
};
const idle: Printed = { state: "idle", points: [], share: 0, why: null };

export function usePrintedCurve(plan: ChancePlan, each: number) {
  const [printed, setPrinted] = useState(idle);
  const running = useRef<AbortController | null>(null);
  useEffect(() => () => running.current?.abort(), []);
  const start = () => {
    const own = new AbortController();
    running.current = own;
    setPrinted({ ...idle, state: "working" });
    const progress = (share: number) => setPrinted((before) => ({ ...before, share }));
    printedCurve(plan, each, { signal: own.signal, progress })
      .then(({ points, share }) =>
        setPrinted({ state: points.length > 0 ? "ended" : "idle", points, share, why: null }),
      )
      .catch((error: unknown) => setPrinted({ ...idle, state: "broken", why: String(error) }));
  };
  return { ...printed, start, stop: () => running.current?.abort(), reset: () => setPrinted(idle) };
}

type Handles = { signal: AbortSignal; progress: (share: number) => void };

/** When stopped, what there is so far: each point says its own trials. */
async function printedCurve(plan: ChancePlan, each: number, { signal, progress }: Handles) {
  const lines = simulatedTruths(plan.declared, readCoupons(plan.draft, plan.declared).length - 1);
  const work = curveWork(plan, { each, lines });
  const pool = simulationPool();
  try {
    await Promise.all(
      Array.from({ length: simulationHands }, async () => {
        for (let part = work.next(); part !== null && !signal.aborted; part = work.next()) {
          await work.take(part, pool);
          progress(work.share());
        }
      }),
    );
  } finally {
    pool.close();
  }
  return { points: work.points(), share: work.share() };
}

function curveWork(plan: ChancePlan, { each, lines }: { each: number; lines: readonly BetterOnes[] }) {
  const asked = { handle: each, lines, points: curvePoints, trials: printedTrials, daily: false };
  const numbers = [...new Set([...curvePoints, each])].sort((a, b) => a - b);
  const wanted = numbers.length * lines.length * printedTrials;
  const handedOut = new Map<string, number>();
  const tallies = new Map<string, SimulationTally>();
  let done = 0;
  return {
    next: () => nextChancePart(asked, (at, line) => handedOut.get(pointKey(at, line)) ?? 0),
    take: async (part: ChancePart, pool: SimulationPool): Promise<void> => {
      const key = pointKey(part.each, part.line);
      const trial = trialAt(plan, part.each, part.line);
      // So many coupons cannot be laid out this way: the point stays out.
      handedOut.set(key, trial === null ? Number.POSITIVE_INFINITY : part.to);
      done += trial === null ? printedTrials : part.to - part.from;
      if (trial === null) return;
      const tally = await pool.tally(trial, part);
      const before = tallies.get(key);
      tallies.set(key, before ? addedTallies(before, tally) : tally);
    },
    share: () => done / wanted,
    points: () =>
      numbers.flatMap((at) =>
        lines.flatMap((line): KeptPoint[] => {
          const tally = tallies.get(pointKey(at, line));
          if (!tally) return [];
          const { trials, each: shown, all, falselyShown } = simulatedChances(tally);
          return shown && all ? [{ each: at, line, trials, shown, all, falselyShown }] : [];
        }),
      ),
  };
}
