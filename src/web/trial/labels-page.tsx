/** Labels to cut out: the coupon's number, large, and nothing that gives its treatment away. */
import { Link } from "wouter";
import { isReplaced } from "../../core/trial/stand-ins.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { Asked } from "../parts/asked.tsx";
import { useTrial } from "../shop/queries.ts";
import { trialText } from "../text/trial.ts";

const text = trialText.labels;

export function LabelsPage({ id }: { id: string }) {
  return (
    <Asked query={useTrial(id)}>
      {(trial) => {
        const record = trialRecord(trial, trial.observations);
        const places = record.plan.places.filter((place) => !isReplaced(record, place.coupon));
        return (
          <main>
            <div className="no-print">
              <h1>{text.title(trial.name, places.length)}</h1>
              <p>{text.explain}</p>
              <div className="actions">
                <button type="button" onClick={() => print()}>
                  {text.print}
                </button>
                <Link href={`/trials/${id}`} className="button quiet">
                  {text.back}
                </Link>
              </div>
            </div>
            <div className="labels">
              {places.map((place) => (
                <div className="label" key={place.coupon}>
                  <b>{place.coupon}</b>
                  <small>{trial.name}</small>
                </div>
              ))}
            </div>
          </main>
        );
      }}
    </Asked>
  );
}
