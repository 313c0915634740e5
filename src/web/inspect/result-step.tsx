/** What was measured, large, over the picture; "looks right" writes the look down, "fix it" opens the brush. */
import { type ReactNode, useRef, useState } from "react";
import type { FoundByCard, Measurement, Photo } from "../../api/photo.ts";
import type { Plan } from "../../core/trial/trial-record.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { useAuthor } from "../keep/author.ts";
import { AskedInside } from "../parts/asked.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { Why } from "../parts/why.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { useObserve } from "../shop/queries.ts";
import { inspectText } from "../text/inspect.ts";
import { startCorners } from "./corner-geometry.ts";
import type { FirstPhotograph } from "./earlier-photographs.ts";
import { type InspectedFace, lookOf } from "./inspected-face.ts";
import type { Inspection } from "./inspection-state.ts";
import { LookDate } from "./look-date.tsx";
import { pictureUrl, useMeasurement } from "./measuring.ts";
import { GateTable } from "./refused-step.tsx";
import { SinceFirst } from "./since-first.tsx";
import { SpotsFigure } from "./spots-figure.tsx";

type MeasuredState = Extract<Inspection, { step: "measured" }>;

export function ResultStep(props: {
  state: MeasuredState;
  face: InspectedFace;
  isLast: boolean;
  go: (next: Inspection) => void;
  onRecorded: () => void;
}) {
  const { state, face, isLast, go, onRecorded } = props;
  const query = useMeasurement(state.measurement);
  const { measurement: id, look, photo } = state;
  return (
    <AskedInside query={query}>
      {(measurement) => (
        <section className="inspect-step">
          <Picture measurement={measurement} coupon={face.coupon} />
          <Result measurement={measurement} first={face.first} />
          <RecordLook state={state} face={face} measurement={measurement} isLast={isLast} onRecorded={onRecorded}>
            <button type="button" className="second wet" onClick={() => go({ step: "fix", measurement: id, look })}>
              {inspectText.fix}
            </button>
          </RecordLook>
          <div className="actions">
            {photo && lightWarning(measurement) && (
              <button
                type="button"
                className="second wet"
                onClick={() => go(cornersAgain(photo, measurement.request, face.plan))}
              >
                {inspectText.cornersAgain}
              </button>
            )}
            <button
              type="button"
              className="second wet"
              onClick={() => go({ step: "leave out", measurement: id, look })}
            >
              {inspectText.leaveOut}
            </button>
            <button type="button" className="quiet" onClick={() => go({ step: "picture" })}>
              {inspectText.otherPicture}
            </button>
          </div>
        </section>
      )}
    </AskedInside>
  );
}

const lightWarning = ({ light }: Measurement) => (light?.by === "nothing" ? light.warning : null);

function cornersAgain(photo: Photo, { cornersPx, sizeMm }: Measurement["request"], plan: Plan): Inspection {
  const reads = sizeMm.lengthMm === plan.couponSize.lengthMm ? "along" : "across";
  return { step: "corners", photo, reads, corners: cornersPx ?? startCorners(photo, sizeMm) };
}

function Picture({ measurement, coupon }: { measurement: Measurement; coupon: string }) {
  const [plain, setPlain] = useState(false);
  const { lengthMm, widthMm } = measurement.request.sizeMm;
  return (
    <figure className="measured">
      <img
        // Its place is kept before it arrives: what stands below must not jump from under a finger.
        style={{ aspectRatio: `${lengthMm} / ${widthMm}` }}
        src={pictureUrl(plain ? measurement.rectified : measurement.overlay, 1280)}
        alt={plain ? inspectText.plainAlt(coupon) : inspectText.overlayAlt(coupon)}
      />
      <button type="button" className="quiet" aria-pressed={plain} onClick={() => setPlain(!plain)}>
        {plain ? inspectText.showFound : inspectText.showPlain}
      </button>
    </figure>
  );
}

function byCardText({ name, couponMm }: FoundByCard): string {
  return inspectText.byCard(name, `${couponMm.lengthMm.toFixed(1)} × ${couponMm.widthMm.toFixed(1)} mm`);
}

/** `first`: the face's first photograph before this look; null where none is known. */
export function Result({ measurement, first }: { measurement: Measurement; first: FirstPhotograph | null }) {
  const { rustedPercent, edgePercent, byHand } = measurement;
  const area: [string, string] = [inspectText.ofFace, `${rustedPercent} %`];
  return (
    <div className="result">
      <p className="result-percent">
        <b>{percentText(rustedPercent)} %</b> {inspectText.ofFace}
      </p>
      <Doubt measurement={measurement} />
      {lightWarning(measurement) && <p className="wrong">{lightWarning(measurement)}</p>}
      <p>{edgePercent === null ? inspectText.noEdge : inspectText.edge(percentText(edgePercent))}</p>
      <dl className="grades">
        <div>
          <dt>{inspectText.gradeD610}</dt>
          <dd>
            {measurement.d610}
            {measurement.d610Letter && `-${measurement.d610Letter}`}{" "}
            <Why of={inspectText.gradeD610} method="rating.rustGradeFromAreaPercent" inputs={[area]} />
          </dd>
        </div>
        <div>
          <dt>{inspectText.rating10289}</dt>
          <dd>
            {measurement.iso10289}{" "}
            <Why of={inspectText.rating10289} method="rating.rustGradeFromAreaPercent" inputs={[area]} />
          </dd>
        </div>
        {measurement.iso4628 !== undefined && (
          <div>
            <dt>{inspectText.degree4628}</dt>
            <dd>
              Ri {measurement.iso4628}{" "}
              <Why of={inspectText.degree4628} method="rating.rustGradeFromAreaPercent" inputs={[area]} />
            </dd>
          </div>
        )}
        <div>
          <dt>{inspectText.unrounded}</dt>
          <dd>
            {measurement.iso10289Continuous.toFixed(2)}{" "}
            <Why of={inspectText.unrounded} method="rating.protectionRatingContinuous" inputs={[area]} />
          </dd>
        </div>
      </dl>
      <LeftOutLine measurement={measurement} />
      <Contacts measurement={measurement} />
      <SinceFirst measurement={measurement} first={first} />
      {measurement.card && <p>{byCardText(measurement.card)}</p>}
      <LightLine measurement={measurement} />
      <SpotsFigure measurement={measurement} />
      {measurement.gate && <GateTable checks={measurement.gate} />}
      {byHand && <p>{inspectText.byHand(byHand.by, byHand.why)}</p>}
      <p className="hint">{inspectText.drawing(measurement.method)}</p>
    </div>
  );
}

/** What told the colour of the light, where no other line says it. */
function LightLine({ measurement: { light, card } }: { measurement: Measurement }) {
  if (light?.by === "card" && !card) return <p>{inspectText.lightByCard}</p>;
  if (light?.by !== "white place") return null;
  return <p>{inspectText.lightByWhite(light.castChroma.toFixed(0))}</p>;
}

function LeftOutLine({ measurement: { request } }: { measurement: Measurement }) {
  const places = request.hiddenMm?.length ?? 0;
  if (places === 0 && !request.outlineMm) return null;
  return <p>{inspectText.leftOut(places, request.outlineMm !== undefined)}</p>;
}

/** Rust round the places where it hung or touched, each by itself. */
function Contacts({ measurement: { request, contactPercents = [] } }: { measurement: Measurement }) {
  if (!request.contactsMm?.length) return null;
  return (
    <ul className="bare">
      {request.contactsMm.map(({ xMm, yMm, radiusMm }, at) => {
        const percent = contactPercents[at] ?? null;
        const words = inspectText.contact(
          at + 1,
          (2 * radiusMm).toFixed(0),
          percent === null ? null : percentText(percent),
        );
        return <li key={`${xMm} ${yMm}`}>{words}</li>;
      })}
    </ul>
  );
}

/** Measurements from before there was an interval have none, nor do those that a hand corrected. */
function Doubt({ measurement: { rustPercentInterval: within, gradeSpan: span } }: { measurement: Measurement }) {
  if (!within || !span) return null;
  const { low, high, confidencePercent } = within;
  return (
    <p>
      {inspectText.within(percentText(low), percentText(high), confidencePercent)}{" "}
      {span.best === span.worst ? inspectText.gradeOne(span.best) : inspectText.gradeSpan(span.best, span.worst)}
    </p>
  );
}

/** What is to be pressed stays in reach of the thumb while the numbers are read; so does what went wrong with it. */
function RecordLook(props: {
  state: MeasuredState;
  face: InspectedFace;
  measurement: Measurement;
  isLast: boolean;
  onRecorded: () => void;
  children: ReactNode;
}) {
  const { state, face, measurement, isLast, onRecorded, children } = props;
  const author = useAuthor();
  const [asksName] = useState(author === "");
  const [unsigned, setUnsigned] = useState(false);
  const name = useRef<HTMLDivElement>(null);
  const observe = useObserve(face.trial);
  const wrongDate = errorAt(observe.error, "/body/when");
  const record = () => {
    setUnsigned(author.trim() === "");
    if (author.trim() === "") return name.current?.querySelector("input")?.focus();
    const { id, rustedPercent, edgePercent } = measurement;
    const body = lookOf(face, { rustedPercent, edgePercent, how: "photo", measurement: id });
    observe.mutate([{ id: state.look, by: author.trim(), corrects: null, body }], { onSuccess: onRecorded });
  };
  return (
    <>
      {asksName && (
        <div ref={name}>
          <AuthorField error={unsigned ? inspectText.youMissing : null} />
        </div>
      )}
      <LookDate date={face.date} onDate={face.onDate} error={null} />
      <div className="actions acts-in-reach">
        {wrongDate !== null && (
          <p role="alert" className="wrong">
            {wrongDate}
          </p>
        )}
        <Trouble error={observe.error} shown={["/body/when"]} />
        <button type="button" className="wet" disabled={observe.isPending} onClick={record}>
          {observe.isPending ? inspectText.recording : isLast ? inspectText.rightLast : inspectText.right}
        </button>
        {children}
      </div>
    </>
  );
}
