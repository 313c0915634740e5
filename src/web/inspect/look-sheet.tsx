/** One look opened: its picture, what was measured, who corrected it and why; and the ways to correct it. */
import { useState } from "react";
import { type Measurement, measurement as measurementSchema } from "../../api/photo.ts";
import type { TrialDocument } from "../../api/shop.ts";
import type { Look, Observed } from "../../core/trial/trial-record.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { useAuthor } from "../keep/author.ts";
import { sendingId } from "../keep/sending-ids.ts";
import { Sheet } from "../parts/sheet.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { ask } from "../shop/ask.ts";
import { useObserve } from "../shop/queries.ts";
import { inspectText, looksGridText } from "../text/inspect.ts";
import { dateText, instantText } from "../text/parts.ts";
import { CorrectNumber } from "./correct-number.tsx";
import { FixArea } from "./fix-area.tsx";
import { lookHistory, type Wording } from "./look-history.ts";
import { pictureUrl } from "./measuring.ts";
import { Result } from "./result-step.tsx";

/** After a correction the look that stands has another id; the sheet goes on with that one. */
type Opened = { trial: TrialDocument; look: Observed<Look> | null; onOpen: (lookId: string | null) => void };

export function LookSheet({ trial, look, onOpen }: Opened) {
  const title = look ? `${inspectText.title(look.body.coupon)}, ${look.body.face}, ${whenText(look.body)}` : "";
  return (
    <Sheet title={title} open={look !== null} onClose={() => onOpen(null)}>
      {look && <OpenLook trial={trial} look={look} onOpen={onOpen} />}
    </Sheet>
  );
}

const whenText = ({ when }: Look) => ("date" in when ? dateText(when.date) : `day ${when.day}`);

function OpenLook({ trial, look, onOpen }: { trial: TrialDocument; look: Observed<Look>; onOpen: Opened["onOpen"] }) {
  const [way, setWay] = useState<"read" | "fix" | "number">("read");
  const measurement = trial.measurements.find((one) => one.id === look.body.measurement);
  const back = () => setWay("read");
  if (way === "fix" && measurement)
    return <FixLook trial={trial} look={look} measurement={measurement} onOpen={onOpen} onCancel={back} />;
  return (
    <>
      {measurement ? (
        <>
          <figure className="measured">
            <img src={pictureUrl(measurement.overlay, 1280)} alt={inspectText.overlayAlt(look.body.coupon)} />
          </figure>
          <Result measurement={measurement} />
        </>
      ) : (
        <p className="result-percent">
          <b>{percentText(look.body.rustedPercent)} %</b> {inspectText.ofFace}
        </p>
      )}
      <History wordings={lookHistory(trial.observations, look.id)} />
      {way === "number" ? (
        <CorrectNumber trialId={trial.id} look={look} onCorrected={() => onOpen(null)} />
      ) : (
        <div className="actions">
          {measurement && (
            <button type="button" onClick={() => setWay("fix")}>
              {looksGridText.fixArea}
            </button>
          )}
          <button type="button" className="second" onClick={() => setWay("number")}>
            {looksGridText.fixNumber}
          </button>
        </div>
      )}
    </>
  );
}

function History({ wordings }: { wordings: Wording[] }) {
  return (
    <>
      <h3>{looksGridText.history}</h3>
      <ol className="bare">
        {wordings.map(({ id, by, recordedAt, corrects, body }) => (
          <li key={id} className="record">
            <b>{looksGridText.said(percentText(body.rustedPercent))}</b>, {looksGridText.how[body.how]},{" "}
            {body.blind ? looksGridText.blindLook : looksGridText.treatmentKnown}
            <p className="when">
              {corrects
                ? looksGridText.corrected(by, instantText(recordedAt), corrects.why)
                : looksGridText.recorded(by, instantText(recordedAt))}
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}

/** The brush on a look already written down: the corrected measurement, then a look that replaces the old one. */
function FixLook(props: {
  trial: TrialDocument;
  look: Observed<Look>;
  measurement: Measurement;
  onOpen: Opened["onOpen"];
  onCancel: () => void;
}) {
  const { trial, look, measurement, onOpen, onCancel } = props;
  const author = useAuthor();
  const observe = useObserve(trial.id);
  const [fixed, setFixed] = useState<{ id: string; why: string } | null>(null);
  const replace = async ({ id, why }: { id: string; why: string }) => {
    setFixed({ id, why });
    const { rustedPercent, edgePercent } = await ask(measurementSchema, `/api/measurements/${id}`);
    const body: Look = { ...look.body, rustedPercent, edgePercent, how: "photo", measurement: id };
    const observation = {
      id: sendingId(`fix look ${look.id}`, body),
      by: author.trim(),
      corrects: { id: look.id, why },
      body,
    };
    observe.mutate([observation], { onSuccess: () => onOpen(observation.id) });
  };
  if (fixed)
    return (
      <>
        <p aria-live="polite">{inspectText.recording}</p>
        <Trouble error={observe.error} />
        {observe.isError && (
          <button type="button" onClick={() => void replace(fixed)}>
            {looksGridText.save}
          </button>
        )}
      </>
    );
  return <FixArea measurement={measurement} onFixed={(id, why) => void replace({ id, why })} onCancel={onCancel} />;
}
