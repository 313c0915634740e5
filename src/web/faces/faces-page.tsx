/** Every finish side by side on one date; before the trial is closed only why there is nothing to see. */
import { useState } from "react";
import { Link } from "wouter";
import type { TrialDocument } from "../../api/shop.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { pictureUrl } from "../inspect/measuring.ts";
import { Asked } from "../parts/asked.tsx";
import { ChoiceField } from "../parts/field.tsx";
import { useTrial } from "../shop/queries.ts";
import { facesText as text } from "../text/faces.ts";
import { dateText } from "../text/parts.ts";
import { type FaceOnDate, facesByTreatment, photographedDates } from "./faces-by-treatment.ts";
import "./faces.css";

export function FacesPage({ id }: { id: string }) {
  return <Asked query={useTrial(id)}>{(trial) => <Faces trial={trial} />}</Asked>;
}

function Faces({ trial }: { trial: TrialDocument }) {
  const record = trialRecord(trial, trial.observations);
  const dates = photographedDates(record, trial.measurements);
  const [chosen, setChosen] = useState<string | null>(null);
  const date = chosen ?? dates[0] ?? null;
  const rows = date === null ? null : facesByTreatment(record, trial.measurements, date);
  const back = (
    <div className="actions">
      <Link href={`/trials/${trial.id}#looks`} className="button quiet">
        {text.toLooks}
      </Link>
    </div>
  );
  if (!record.unblinded || date === null || rows === null)
    return (
      <main className="faces">
        <h1>{record.unblinded ? text.nothing : text.stillBlind}</h1>
        {!record.unblinded && <p>{text.stillBlindMore}</p>}
        {back}
      </main>
    );
  return (
    <main className="faces">
      <h1>{text.sideTitle(dateText(date))}</h1>
      <p>{text.sideSentence}</p>
      <ChoiceField
        label={text.date}
        value={date}
        choices={dates.map((value) => ({ value, label: dateText(value) }))}
        onChoose={setChosen}
      />
      {rows.map(({ treatment, faces }) => (
        <section key={treatment} aria-label={treatment}>
          <h2>{treatment}</h2>
          <ul className="bare face-multiples">
            {faces.map((face) => (
              <OneFace key={face.coupon} trial={trial.id} date={date} {...face} />
            ))}
          </ul>
        </section>
      ))}
      {back}
    </main>
  );
}

function OneFace({ trial, date, coupon, measurement }: FaceOnDate & { trial: string; date: string }) {
  return (
    <li>
      <Link href={`/trials/${trial}/coupons/${encodeURIComponent(coupon)}`}>
        {measurement ? (
          <img
            src={pictureUrl(measurement.overlay, 320)}
            alt={text.pictureAlt(coupon, dateText(date))}
            loading="lazy"
          />
        ) : (
          <span className="no-face">{text.noPhotograph}</span>
        )}
        <b>{coupon}</b> {measurement && text.percent(percentText(measurement.rustedPercent))}
      </Link>
    </li>
  );
}
