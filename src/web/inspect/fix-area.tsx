/** "Fix it": brush, reason and name become a new measurement that says who changed what and why. */
import { useMutation } from "@tanstack/react-query";
import { useCallback, useState } from "react";
import type { BrushStroke, Measurement } from "../../api/photo.ts";
import { useAuthor } from "../keep/author.ts";
import { useDraft } from "../keep/draft.ts";
import { Choices } from "../parts/choices.tsx";
import { LongTextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { newId } from "../shop/new-id.ts";
import { brushText, inspectText } from "../text/inspect.ts";
import { recordText } from "../text/parts.ts";
import { BrushBoard, type BrushTool } from "./brush-board.tsx";
import { brushAfter } from "./brush-keys.ts";
import { useStrokes } from "./inspection-state.ts";
import { startCorrecting } from "./measuring.ts";
import { WorkingStep } from "./working-step.tsx";

type Fix = {
  measurement: Measurement;
  /** The corrected measurement's id, and the reason as it was written. */
  onFixed: (measurement: string, why: string) => void;
  onCancel: () => void;
};

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
      <Painting measurement={measurement} strokes={strokes} onChange={setStrokes} missing={lacking.strokes ?? null} />
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

const brushWidthsMm = [1, 2, 5, 10];
const zooms = [1, 2, 4];
const tools: readonly BrushTool[] = ["rust", "not rust", "left out", "move"];
const toolLabel = (tool: BrushTool) => (tool === "move" ? brushText.move : brushText.tools[tool]);

function Painting(props: {
  measurement: Measurement;
  strokes: BrushStroke[];
  onChange: (strokes: BrushStroke[]) => void;
  missing: string | null;
}) {
  const { measurement, strokes, onChange, missing } = props;
  const [tool, setTool] = useState<BrushTool>("not rust");
  const [widthMm, setWidthMm] = useState(5);
  const [zoom, setZoom] = useState(1);
  const [plain, setPlain] = useState(false);
  return (
    <>
      <Choices label={brushText.tool} choices={tools} chosen={tool} text={toolLabel} onChoose={setTool} />
      <p className="hint">{tool === "move" ? " " : brushText.toolHints[tool]}</p>
      <BrushBoard
        measurement={measurement}
        strokes={strokes}
        tool={tool}
        widthMm={widthMm}
        zoom={zoom}
        plain={plain}
        onStroke={(stroke) => onChange([...strokes, stroke])}
        onWidthKey={(key) => setWidthMm(brushAfter(brushWidthsMm, widthMm, key))}
      />
      <div className="brush-options">
        <Choices
          label={brushText.width}
          choices={brushWidthsMm}
          chosen={widthMm}
          text={brushText.widthMm}
          onChoose={setWidthMm}
        />
        <Choices
          label={brushText.zoom}
          choices={zooms}
          chosen={zoom}
          text={(times) => `×${times}`}
          onChoose={setZoom}
        />
        <button
          type="button"
          className="second"
          disabled={strokes.length === 0}
          onClick={() => onChange(strokes.slice(0, -1))}
        >
          {brushText.undo}
        </button>
        <button type="button" className="quiet" aria-pressed={plain} onClick={() => setPlain(!plain)}>
          {plain ? inspectText.showFound : inspectText.showPlain}
        </button>
      </div>
      <p role="status" className={missing ? "wrong" : "hint"}>
        {strokes.length === 0 ? brushText.nothing : brushText.painted(strokes.length)}
      </p>
    </>
  );
}
