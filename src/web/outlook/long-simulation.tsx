/** The button that starts a longer simulation, its progress, and the way out of it. */
import type { ReactNode } from "react";
import { chanceText } from "../text/chance.ts";
import { type LongWork, useSimulated } from "./use-simulated.ts";

export function LongSimulation<Result>({
  label,
  work,
  children,
}: {
  label: string;
  work: LongWork<Result>;
  children: (result: Result) => ReactNode;
}) {
  const { simulated, start, cancel } = useSimulated(work);
  return (
    <div className="long-simulation">
      {simulated.state === "working" ? (
        <p role="status">
          <progress value={simulated.share} max={1} aria-label={label} /> {chanceText.progress(simulated.share)}{" "}
          <button type="button" className="quiet" onClick={cancel}>
            {chanceText.cancel}
          </button>
        </p>
      ) : (
        simulated.state !== "done" && (
          <button type="button" className="second" onClick={start}>
            {label}
          </button>
        )
      )}
      {simulated.state === "broken" && <p className="wrong">{chanceText.broken(simulated.why)}</p>}
      {simulated.state === "done" && children(simulated.result)}
    </div>
  );
}
