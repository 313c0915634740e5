/** One look opened: its picture, what was measured, who corrected it and why; and the ways to correct it. */
import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import * as z from "zod/mini";
import { observation } from "../../api/observation.ts";
import { type Measurement, measurement as measurementSchema } from "../../api/photo.ts";
import { isPercentLook, type Look, type Observed } from "../../core/trial/trial-record.ts";
import { writtenAt } from "../../core/trial/written-at.ts";
import { capital } from "../../report/capital.ts";
import { lookReadingText, looksText } from "../../report/figures/figure-text.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { useAuthor } from "../keep/author.ts";
import { sendingId } from "../keep/sending-ids.ts";
import { Sheet } from "../parts/sheet.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { ask } from "../shop/ask.ts";
import { newId } from "../shop/new-id.ts";
import { useObserve } from "../shop/queries.ts";
import { inspectText, looksGridText } from "../text/inspect.ts";
import { dateText, instantText } from "../text/parts.ts";
import { CorrectClass } from "./correct-class.tsx";
import { CorrectNumber } from "./correct-number.tsx";
import type { FirstPhotograph } from "./earlier-photographs.ts";
import { FixArea } from "./fix-area.tsx";
import { pictureUrl } from "./measuring.ts";
import { Result } from "./result-step.tsx";

/** After a correction the look that stands has another id; the sheet goes on with that one. */
type Opened = {
  trialId: string;
  look: Observed<Look>;
  measurements: Measurement[];
  /** The trial is closed: whoever corrects now can see the treatment. */
  unblinded: boolean;
  /** The face's first photograph; null: there is none before this one. */
  first: FirstPhotograph | null;
  onOpen: (lookId: string | null) => void;
};

export function LookSheet({ look, ...rest }: Omit<Opened, "look"> & { look: Observed<Look> | null }) {
  const title = look ? `${inspectText.title(look.body.coupon)}, ${look.body.face}, ${whenText(look.body)}` : "";
  return (
    <Sheet title={title} open={look !== null} onClose={() => rest.onOpen(null)}>
      {look && <OpenLook look={look} {...rest} />}
    </Sheet>
  );
}

const whenText = ({ when }: Look) => ("date" in when ? dateText(when.date) : `day ${when.day}`);

function OpenLook({ trialId, look: written, measurements, unblinded, first, onOpen }: Opened) {
  const look = { ...written, body: { ...written.body, blind: written.body.blind && !unblinded } };
  const [way, setWay] = useState<"read" | "fix" | "number">("read");
  const measurement = measurements.find((one) => one.id === look.body.measurement);
  const back = () => setWay("read");
  if (way === "fix" && measurement)
    return <FixLook trialId={trialId} look={look} measurement={measurement} onOpen={onOpen} onCancel={back} />;
  return (
    <>
      {measurement ? (
        <>
          <figure className="measured">
            <img src={pictureUrl(measurement.overlay, 1280)} alt={inspectText.overlayAlt(look.body.coupon)} />
          </figure>
          <Result measurement={measurement} first={first} />
        </>
      ) : (
        <p className="result-percent">
          <Reading look={look.body} />
        </p>
      )}
      <History trialId={trialId} lookId={look.id} />
      {way === "number" ? (
        <CorrectReading trialId={trialId} look={look} onCorrected={() => onOpen(null)} />
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
          {measurement && (
            <Link href={`/trials/${trialId}/coupons/${encodeURIComponent(look.body.coupon)}`} className="button second">
              {looksGridText.overTime}
            </Link>
          )}
          {measurement && (
            <Link href={`/trials/${trialId}/reading/${measurement.id}`} className="button quiet">
              {looksGridText.teach}
            </Link>
          )}
        </div>
      )}
    </>
  );
}

function Reading({ look }: { look: Look }) {
  if (isPercentLook(look))
    return (
      <>
        <b>{percentText(look.rustedPercent)} %</b> {inspectText.ofFace}
      </>
    );
  return <b>{capital(lookReadingText(look))}</b>;
}

/** What replaces a look is written as the look was: a percent, or a class of its scale. */
function CorrectReading({ look, ...rest }: { trialId: string; look: Observed<Look>; onCorrected: () => void }) {
  const { body } = look;
  return isPercentLook(body) ? (
    <CorrectNumber look={{ ...look, body }} {...rest} />
  ) : (
    <CorrectClass look={{ ...look, body }} {...rest} />
  );
}

function History({ trialId, lookId }: { trialId: string; lookId: string }) {
  const path = `/api/trials/${trialId}/observations/${lookId}/history`;
  const { data, error } = useQuery({
    queryKey: ["trial", trialId, "history", lookId],
    queryFn: () => ask(z.array(observation), path),
  });
  return (
    <>
      <h3>{looksGridText.history}</h3>
      <Trouble error={error} />
      <ol className="bare">
        {data?.map((wording) => (
          <li key={wording.id} className="record">
            {wording.body.kind === "look" ? <Said look={wording.body} /> : looksGridText.withdrawn}
            <p className="when">
              {wording.corrects
                ? looksGridText.corrected(wording.by, instantText(writtenAt(wording)), wording.corrects.why)
                : looksGridText.recorded(wording.by, instantText(writtenAt(wording)))}
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}

function Said({ look }: { look: Look }) {
  return (
    <>
      <b>{lookReadingText(look)}</b>, {looksText.how[look.how]},{" "}
      {look.blind ? looksGridText.blindLook : looksGridText.treatmentKnown}
    </>
  );
}

/** The brush on a look already written down: the corrected measurement, then a look that replaces the old one. */
function FixLook(props: {
  trialId: string;
  look: Observed<Look>;
  measurement: Measurement;
  onOpen: Opened["onOpen"];
  onCancel: () => void;
}) {
  const { trialId, look, measurement, onOpen, onCancel } = props;
  const author = useAuthor();
  const observe = useObserve(trialId);
  const [fixed, setFixed] = useState<{ id: string; why: string } | null>(null);
  const replace = async ({ id, why }: { id: string; why: string }) => {
    setFixed({ id, why });
    const { rustedPercent, edgePercent } = await ask(measurementSchema, `/api/measurements/${id}`);
    const { coupon, face, when, blind } = look.body;
    const at = { kind: "look", coupon, face, when, blind } as const;
    const body: Look = { ...at, rustedPercent, edgePercent, how: "photo", measurement: id };
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
  const { coupon, face, when, blind } = look.body;
  return (
    <FixArea
      measurement={measurement}
      coupon={coupon}
      goesOn={{
        inspection: null,
        look: { id: newId(), trial: trialId, corrects: look.id, body: { kind: "look", coupon, face, when, blind } },
      }}
      onFixed={(id, why) => void replace({ id, why })}
      onCancel={onCancel}
      onSent={onCancel}
    />
  );
}
