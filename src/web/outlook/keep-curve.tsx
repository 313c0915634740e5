/** Simulates a plan's curve with the trials that paper asks for, shows how far it is, can be stopped, and keeps what is there. */
import { printedTrials } from "../../core/trial/chance-curve.ts";
import { readCoupons } from "../../core/trial/read-coupons.ts";
import { simulationSeed } from "../../core/trial/simulated-plan.ts";
import type { KeptPoint, Simulation } from "../../core/trial/simulation.ts";
import { simulatedDraws } from "../../core/trial/simulation-tally.ts";
import { pageVersion } from "../shop/page-version.ts";
import { chanceText, keptText } from "../text/chance.ts";
import { ObserveForm } from "../trial/observe-form.tsx";
import type { ChancePlan } from "./chance-plan.ts";
import { usePrintedCurve } from "./use-printed-curve.ts";

export function KeepCurve({
  trialId,
  planId,
  plan,
  each,
  scatterFrom,
}: {
  trialId: string;
  /** The wording of the plan, by id. */
  planId: string;
  plan: ChancePlan;
  each: number;
  scatterFrom: string;
}) {
  const { state, points, share, why, start, stop, reset } = usePrintedCurve(plan, each);
  if (state === "idle" || state === "broken")
    return (
      <>
        <button type="button" className="second" onClick={start}>
          {keptText.start}
        </button>
        {why !== null && <p className="wrong">{chanceText.broken(why)}</p>}
      </>
    );
  if (state === "working")
    return (
      <p role="status">
        <progress value={share} max={1} aria-label={keptText.start} /> {chanceText.progress(share)}{" "}
        <button type="button" className="quiet" onClick={stop}>
          {chanceText.stop}
        </button>
      </p>
    );
  return (
    <>
      <p role="status">{share >= 1 ? keptText.done(printedTrials) : keptText.stopped(countsOf(points))}</p>
      <ObserveForm
        trialId={trialId}
        about="simulation"
        start={() => ({})}
        fill={() => ({ bodies: [simulationOf({ planId, plan, each, scatterFrom, points })] })}
        fields={() => null}
        submit={keptText.keep}
        onWritten={reset}
      />
    </>
  );
}

function simulationOf(of: {
  planId: string;
  plan: ChancePlan;
  each: number;
  scatterFrom: string;
  points: KeptPoint[];
}): Simulation {
  const { planId, plan, each, scatterFrom, points } = of;
  const { draft, declared, size, assumed } = plan;
  return {
    kind: "simulation",
    plan: planId,
    ...{ declared, each, size, assumed, scatterFrom },
    finishes: readCoupons(draft, declared).length - 1,
    seed: simulationSeed,
    draws: simulatedDraws,
    program: pageVersion(),
    wanted: printedTrials,
    points,
  };
}

function countsOf(points: readonly KeptPoint[]): { least: number; most: number } {
  const counts = points.map((point) => point.trials);
  return { least: Math.min(...counts), most: Math.max(...counts) };
}
