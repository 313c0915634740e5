/** "Fix it": brush, reason and name become a new measurement that says who changed what and why. */
import { useMutation } from "@tanstack/react-query";
import { useCallback, useEffect, useRef, useState } from "react";
import type { HandCorrection, Measurement } from "../../api/photo.ts";
import { useAuthor } from "../keep/author.ts";
import { useDraft } from "../keep/draft.ts";
import { forgetIds, sendingId } from "../keep/sending-ids.ts";
import { LongTextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { NoAnswer } from "../shop/ask.ts";
import { errorAt } from "../shop/field-errors.ts";
import { brushText, inspectText } from "../text/inspect.ts";
import { recordText } from "../text/parts.ts";
import { waitingText } from "../text/waiting.ts";
import { refusalWords } from "../waiting/refusal-words.ts";
import { recordCorrection } from "../waiting/send-waiting.ts";
import { useWaiting } from "../waiting/use-waiting.ts";
import type { WaitingCorrection } from "../waiting/waiting-item.ts";
import type { BrushTool } from "./brush-board.tsx";
import { useStrokes } from "./inspection-state.ts";
import { startCorrecting } from "./measuring.ts";
import { Painting } from "./painting.tsx";
import { WorkingStep } from "./working-step.tsx";

type Fix = {
  measurement: Measurement;
  coupon: string;
  /** What goes on with it where the shop is not reached now. */
  goesOn: Pick<WaitingCorrection, "inspection" | "look">;
  /** The corrected measurement's id, and the reason as it was written. */
  onFixed: (measurement: string, why: string) => void;
  onCancel: () => void;
  /** What waited here was sent, or thrown away. */
  onSent: () => void;
};

/** A shop that has not answered by then is out of reach: the correction waits. */
const patienceMs = 10_000;

const fixingTools: readonly BrushTool[] = ["rust", "not rust", "left out", "move"];

export function FixArea({ measurement, coupon, goesOn, onFixed, onCancel, onSent }: Fix) {
  const [strokes, setStrokes] = useStrokes(measurement.id);
  const draft = useDraft(`fix ${measurement.id}`, () => ({ why: "" }));
  const author = useAuthor();
  const [job, setJob] = useState<string | null>(null);
  const [lacking, setLacking] = useState<{ why?: string; by?: string; strokes?: string }>({});
  const { why } = draft.form;
  const idsKey = `fix ${measurement.id}`;
  const waiting = useWaitingFor(measurement.id, onSent);
  const handedOn = useCallback(() => {
    forgetIds(idsKey);
    setStrokes([]);
    draft.clear();
  }, [idsKey, setStrokes, draft.clear]);

  const start = useMutation({
    mutationFn: async () => {
      const said = { by: author.trim(), why: why.trim(), strokes };
      // Made once: should the answer be lost, what waits is the same correction.
      const correction: HandCorrection = { id: sendingId(idsKey, said), ...said };
      try {
        return (await startCorrecting(measurement.id, correction, AbortSignal.timeout(patienceMs))).id;
      } catch (failure) {
        if (!(failure instanceof NoAnswer)) throw failure;
      }
      await recordCorrection({ id: correction.id, coupon, measurement: measurement.id, correction, ...goesOn });
      return null;
    },
    onSuccess: (id) => (id === null ? handedOn() : setJob(id)),
  });
  const submit = () => {
    const missing = {
      ...(strokes.length === 0 ? { strokes: brushText.nothing } : {}),
      ...(why.trim() === "" ? { why: recordText.whyMissing } : {}),
      ...(author.trim() === "" ? { by: recordText.youMissing } : {}),
    };
    setLacking(missing);
    if (Object.keys(missing).length === 0) start.mutate();
  };
  const done = useCallback(() => {
    if (job === null) return;
    handedOn();
    onFixed(job, why.trim());
  }, [job, why, handedOn, onFixed]);

  if (job !== null)
    return (
      <WorkingStep
        job={job}
        title={brushText.working}
        back={inspectText.fix}
        onDone={done}
        onBack={() => setJob(null)}
      />
    );
  if (waiting)
    return (
      <section className="inspect-step waiting">
        {waiting.refused ? (
          <p className="wrong">{waitingText.refused(refusalWords(waiting.refused))}</p>
        ) : (
          <p>{waitingText.correctionKept}</p>
        )}
        {goesOn.inspection !== null && <p className="hint">{waitingText.correctionGoesOn}</p>}
      </section>
    );
  return (
    <section className="inspect-step">
      <p>{brushText.sentence}</p>
      <Painting
        measurement={measurement}
        tools={fixingTools}
        strokes={strokes}
        onChange={setStrokes}
        missing={lacking.strokes ?? null}
      />
      <LongTextField
        label={brushText.why}
        hint={brushText.whyHint}
        rows={2}
        value={why}
        onType={(typed) => draft.change({ why: typed })}
        error={lacking.why ?? errorAt(start.error, "/why")}
      />
      <AuthorField error={lacking.by ?? errorAt(start.error, "/by")} />
      <Trouble error={start.error} shown={["/why", "/by"]} />
      <div className="actions">
        <button type="button" className="wet" disabled={start.isPending} onClick={submit}>
          {brushText.apply}
        </button>
        <button type="button" className="quiet" onClick={onCancel}>
          {brushText.cancel}
        </button>
      </div>
    </section>
  );
}

/** The correction of this measurement that waits on this device; told once when it does no longer. */
function useWaitingFor(measurement: string, onSent: () => void): WaitingCorrection | null {
  const waiting = useWaiting().find((item) => item.kind === "correction" && item.measurement === measurement);
  const waited = useRef(false);
  useEffect(() => {
    if (waited.current && !waiting) onSent();
    waited.current = waiting !== undefined;
  }, [waiting, onSent]);
  return waiting?.kind === "correction" ? waiting : null;
}
