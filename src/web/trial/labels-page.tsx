/** Labels to cut out: the coupon's number, large, a code that opens its inspection, and nothing that gives its treatment away. */
import { useState } from "react";
import { Link } from "wouter";
import { isReplaced } from "../../core/trial/stand-ins.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { Asked } from "../parts/asked.tsx";
import { ChoiceField } from "../parts/field.tsx";
import { QrCode } from "../parts/qr-code.tsx";
import { useSharing } from "../sharing/sharing-queries.ts";
import { useTrial } from "../shop/queries.ts";
import { trialText } from "../text/trial.ts";
import { labelAddress, labelBases } from "./label-address.ts";

const text = trialText.labels;

export function LabelsPage({ id }: { id: string }) {
  const bases = labelBases(location.origin, useSharing().data?.addresses ?? []);
  const [chosen, setChosen] = useState<string | null>(null);
  const base = chosen ?? bases[0] ?? null;
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
              <p className="hint">{base === null ? text.notShared : text.code}</p>
              {base !== null && bases.length > 1 && (
                <div className="fields">
                  <ChoiceField
                    label={text.address}
                    hint={text.addressHint}
                    value={base}
                    choices={bases.map((value) => ({ value, label: value }))}
                    onChoose={setChosen}
                  />
                </div>
              )}
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
                  <div>
                    <b>{place.coupon}</b>
                    <small>{trial.name}</small>
                  </div>
                  {base !== null && (
                    <QrCode text={labelAddress(base, id, place.coupon)} label={text.opens(place.coupon)} />
                  )}
                </div>
              ))}
            </div>
          </main>
        );
      }}
    </Asked>
  );
}
