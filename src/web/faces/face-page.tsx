/** One coupon's face over time: each photograph small, and two of them laid over each other. Knows no treatment. */
import { useState } from "react";
import { Link } from "wouter";
import type { Measurement } from "../../api/photo.ts";
import type { TrialDocument } from "../../api/shop.ts";
import { type TrialRecord, trialRecord } from "../../core/trial/trial-record.ts";
import { doubtInWords, doubtLines, doubtNote } from "../../report/figures/doubt-text.ts";
import type { Doubt } from "../../report/figures/looks-table.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { type DatedPhotograph, photographsOf } from "../inspect/earlier-photographs.ts";
import { pictureUrl } from "../inspect/measuring.ts";
import { Asked } from "../parts/asked.tsx";
import { Choices } from "../parts/choices.tsx";
import { useTrial } from "../shop/queries.ts";
import { facesText as text } from "../text/faces.ts";
import { inspectText } from "../text/inspect.ts";
import { dateText } from "../text/parts.ts";
import { LaidOver } from "./laid-over.tsx";
import "../inspect/inspect.css";
import "./faces.css";

export function FacePage({ id, coupon }: { id: string; coupon: string }) {
  return <Asked query={useTrial(id)}>{(trial) => <Face trial={trial} coupon={coupon} />}</Asked>;
}

const bothFaces = ["front", "back"] as const;

function Face({ trial, coupon }: { trial: TrialDocument; coupon: string }) {
  const record = trialRecord(trial, trial.observations);
  const [face, setFace] = useState<"front" | "back">("front");
  const hasBack = record.looks.some(({ body }) => body.coupon === coupon && body.face === "back");
  const photographs = photographsOf(record, trial.measurements, { coupon, face });
  return (
    <main className="faces">
      <h1>{text.title(coupon)}</h1>
      {hasBack && (
        <Choices
          label={inspectText.face}
          choices={bothFaces}
          chosen={face}
          text={(one) => inspectText.faces[one]}
          onChoose={setFace}
        />
      )}
      <p>{text.sentence(photographs.length)}</p>
      <Multiples coupon={coupon} photographs={photographs} />
      {photographs.length > 1 ? (
        <LaidOver key={face} photographs={photographs} />
      ) : (
        <p className="hint">{text.oneOnly}</p>
      )}
      <Ways record={record} />
    </main>
  );
}

function Multiples({ coupon, photographs }: { coupon: string; photographs: readonly DatedPhotograph[] }) {
  const sure = photographs.find(({ measurement }) => doubtOf(measurement))?.measurement.rustPercentInterval;
  return (
    <>
      <ol className="bare face-multiples">
        {photographs.map(({ look, date, measurement }) => {
          const { request, overlay, rustedPercent } = measurement;
          const doubt = doubtOf(measurement);
          return (
            <li key={look}>
              <img
                style={{ aspectRatio: `${request.sizeMm.lengthMm} / ${request.sizeMm.widthMm}` }}
                src={pictureUrl(overlay, 320)}
                alt={text.pictureAlt(coupon, dateText(date))}
                loading="lazy"
              />
              <b>{text.percent(percentText(rustedPercent))}</b> {dateText(date)}
              {doubt && <ShortDoubt doubt={doubt} />}
            </li>
          );
        })}
      </ol>
      {/* Once for all of them: under each picture the same sentence would be most of what there is to read. */}
      {sure && <p className="hint">{doubtNote(sure.confidencePercent)}</p>}
    </>
  );
}

/** A hand's correction has no such doubt. */
function doubtOf({ rustPercentInterval: within, gradeSpan: span, byHand }: Measurement): Doubt | null {
  return within && span && !byHand ? { ...within, ...span } : null;
}

/** Short for the eye, in words for the ear. */
function ShortDoubt({ doubt }: { doubt: Doubt }) {
  const [range, grades] = doubtLines(doubt);
  return (
    <small>
      <span className="sr-only">{doubtInWords(doubt)}</span>
      <span aria-hidden="true">
        <span>{range} %,</span> <span>{grades}</span>
      </span>
    </small>
  );
}

function Ways({ record }: { record: TrialRecord }) {
  return (
    <div className="actions">
      {record.unblinded && (
        <Link href={`/trials/${record.id}/faces`} className="button second">
          {text.toAll}
        </Link>
      )}
      <Link href={`/trials/${record.id}#looks`} className="button quiet">
        {text.toLooks}
      </Link>
    </div>
  );
}
