/** "Fix it": brush, reason and name become a new measurement that says who changed what and why. */
import { useMutation } from "@tanstack/react-query";
import { useCallback, useState } from "react";
import type { Measurement } from "../../api/photo.ts";
import { useAuthor } from "../keep/author.ts";
import { useDraft } from "../keep/draft.ts";
import { LongTextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { newId } from "../shop/new-id.ts";
import { brushText, inspectText } from "../text/inspect.ts";
import { recordText } from "../text/parts.ts";
import type { BrushTool } from "./brush-board.tsx";
import { useStrokes } from "./inspection-state.ts";
import { startCorrecting } from "./measuring.ts";
import { Painting } from "./painting.tsx";
import { WorkingStep } from "./working-step.tsx";

type Fix = {
  measurement: Measurement;
  /** The corrected measurement's id, and the reason as it was written. */
  onFixed: (measurement: string, why: string) => void;
  onCancel: () => void;
};

const fixingTools: readonly BrushTool[] = ["rust", "not rust", "left out", "move"];

export function FixArea({ measurement, onFixed, onCancel }: Fix) {
  const [strokes, setStrokes] = useStrokes(measurement.id);
  const draft = useDraft(`fix ${measurement.id}`, () => ({ why: "" }));
  const author = useAuthor();
  const [job, setJob] = useState<string | null>(null);
  const [lacking, setLacking] = useState<{ why?: string; by?: string; strokes?: string }>({});
  const { why } = draft.form;

  const start = useMutation({
    mutationFn: () => startCorrecting(measurement.id, { id: newId(), by: author.trim(), why: why.trim(), strokes }),
    onSuccess: ({ id }) => setJob(id),
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
    setStrokes([]);
    draft.clear();
    onFixed(job, why.trim());
  }, [job, why, setStrokes, draft.clear, onFixed]);

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
