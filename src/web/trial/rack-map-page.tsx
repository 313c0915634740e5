/** The rack map to print: which number hangs where. */
import { Link } from "wouter";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { RackFigure } from "../../report/figures/rack-figure.tsx";
import { Asked } from "../parts/asked.tsx";
import { Scroll } from "../parts/scroll.tsx";
import { useTrial } from "../shop/queries.ts";
import { trialText } from "../text/trial.ts";
import { rackOf } from "./where-it-stands.ts";

const text = trialText.labels;

export function RackMapPage({ id }: { id: string }) {
  return (
    <Asked query={useTrial(id)}>
      {(trial) => {
        const rack = rackOf(trialRecord(trial, trial.observations));
        return (
          <main>
            <h1>{text.mapTitle(trial.name)}</h1>
            <div className="actions">
              <button type="button" onClick={() => print()}>
                {text.print}
              </button>
              <Link href={`/trials/${id}`} className="button quiet">
                {text.back}
              </Link>
            </div>
            {rack ? (
              <Scroll label={trialText.rack.figure}>
                <RackFigure coupons={rack} label={trialText.rack.figure} />
              </Scroll>
            ) : (
              <p>{trialText.rack.none}</p>
            )}
            <p>
              <small>{trialText.rack.legend}</small>
            </p>
          </main>
        );
      }}
    </Asked>
  );
}
