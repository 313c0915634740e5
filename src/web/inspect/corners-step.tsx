/** The four corners and the side along which the number reads; then the measuring is asked for. */
import { useMutation } from "@tanstack/react-query";
import { useState } from "react";
import type { Plan } from "../../core/trial/trial-record.ts";
import { quantityText } from "../parts/quantity.ts";
import { Trouble } from "../parts/trouble.tsx";
import { newId } from "../shop/new-id.ts";
import { usePreferences } from "../shop/queries.ts";
import { inspectText } from "../text/inspect.ts";
import { cornerFault, type Point, sidesLookSwapped, startCorners, turned } from "./corner-geometry.ts";
import { CornerPicker } from "./corner-picker.tsx";
import type { InspectedFace } from "./inspected-face.ts";
import type { Inspection, Reads } from "./inspection-state.ts";
import { requestFor, sizeAsRead, startMeasuring } from "./measuring.ts";

type CornersState = Extract<Inspection, { step: "corners" }>;

export function CornersStep(props: { state: CornersState; face: InspectedFace; go: (next: Inspection) => void }) {
  const { state, face, go } = props;
  const { plan } = face;
  const { photo, corners, reads, white } = state;
  const [asksWhite, setAsksWhite] = useState(false);
  const sizeMm = sizeAsRead(plan.couponSize, reads);
  const fault = cornerFault(corners);
  // Nobody has dragged a ring yet: they start again in the shape that was just chosen.
  const untouched = String(corners) === String(startCorners(photo, sizeMm));
  const readThus = (next: Reads) =>
    go({
      ...state,
      reads: next,
      corners: untouched ? startCorners(photo, sizeAsRead(plan.couponSize, next)) : corners,
    });
  const start = useMutation({
    mutationFn: () =>
      // Whoever sets corners has said before that the coupon is dry, or nobody was asked.
      startMeasuring(requestFor({ id: newId(), photo, corners, white, reads, face, surface: "dry and wiped" })),
    onSuccess: (job) => go({ step: "measuring", photo, corners, reads, ...marked(white), measurement: job.id }),
  });
  const setWhite = (place: Point | undefined) => {
    setAsksWhite(false);
    const { white: _, ...rest } = state;
    go({ ...rest, ...marked(place) });
  };
  return (
    <section className="inspect-step">
      {state.note !== undefined && <p className="lead">{state.note}</p>}
      <p>{inspectText.corners}</p>
      <CornerPicker
        photo={photo}
        corners={corners}
        onChange={(next) => go({ ...state, corners: next })}
        white={{ at: white ?? null, asked: asksWhite, onPlace: setWhite }}
      />
      <ReadsChoice plan={plan} reads={reads} onChoose={readThus} />
      <WhitePlace
        asked={asksWhite}
        placed={white !== undefined}
        onAsk={setAsksWhite}
        onTakeAway={() => setWhite(undefined)}
      />
      {fault === null && sidesLookSwapped(corners, sizeMm) && <p className="wrong">{inspectText.swapped}</p>}
      {fault !== null && <p className="wrong">{inspectText.faults[fault]}</p>}
      <Trouble error={start.error} />
      <div className="actions acts-in-reach">
        <button
          type="button"
          className="wet"
          disabled={fault !== null || start.isPending}
          onClick={() => start.mutate()}
        >
          {inspectText.measure}
        </button>
      </div>
      <div className="actions">
        <button type="button" className="second" onClick={() => go({ ...state, corners: turned(corners) })}>
          {inspectText.turn}
        </button>
        <button type="button" className="quiet" onClick={() => go({ step: "picture" })}>
          {inspectText.otherPicture}
        </button>
      </div>
    </section>
  );
}

const marked = (white: Point | undefined) => (white ? { white } : {});

/** May be left out: what is white or grey in the picture tells the colour of the light. */
function WhitePlace(props: {
  asked: boolean;
  placed: boolean;
  onAsk: (asked: boolean) => void;
  onTakeAway: () => void;
}) {
  const { asked, placed, onAsk, onTakeAway } = props;
  if (asked)
    return (
      <div className="actions">
        <p role="status">{inspectText.whiteTap}</p>
        <button type="button" className="second wet" onClick={() => onAsk(false)}>
          {inspectText.whiteNone}
        </button>
      </div>
    );
  return (
    <>
      {!placed && <p className="hint">{inspectText.whiteHint}</p>}
      <div className="actions">
        <button type="button" className="second wet" onClick={() => (placed ? onTakeAway() : onAsk(true))}>
          {placed ? inspectText.whiteAway : inspectText.white}
        </button>
      </div>
    </>
  );
}

function ReadsChoice({ plan, reads, onChoose }: { plan: Plan; reads: Reads; onChoose: (reads: Reads) => void }) {
  const preferences = usePreferences();
  const mmText = (mm: number) => quantityText("length", mm, preferences);
  const { lengthMm, widthMm } = plan.couponSize;
  const band = plan.edgeBandMm > 0 && <p className="hint">{inspectText.edgeBand(mmText(plan.edgeBandMm))}</p>;
  if (lengthMm === widthMm) return band;
  const choices = [
    ["along", inspectText.readsAlong(mmText(lengthMm))],
    ["across", inspectText.readsAcross(mmText(widthMm))],
  ] as const;
  return (
    <>
      <fieldset className="either">
        <legend>{inspectText.reads}</legend>
        {choices.map(([value, label]) => (
          <label key={value}>
            <input type="radio" name="reads" checked={reads === value} onChange={() => onChoose(value)} />
            <span>{label}</span>
          </label>
        ))}
      </fieldset>
      {band}
    </>
  );
}
