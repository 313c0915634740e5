/** A brush over a measured coupon: what it paints, how wide, how near; the last stroke taken back. */
import { useState } from "react";
import type { BrushStroke, Measurement } from "../../api/photo.ts";
import { Choices } from "../parts/choices.tsx";
import { brushText, inspectText } from "../text/inspect.ts";
import { BrushBoard, type BrushTool } from "./brush-board.tsx";
import { brushAfter } from "./brush-keys.ts";

const brushWidthsMm = [1, 2, 5, 10];
const zooms = [1, 2, 4];
const toolLabel = (tool: BrushTool) => (tool === "move" ? brushText.move : brushText.tools[tool]);

export function Painting(props: {
  measurement: Measurement;
  tools: readonly BrushTool[];
  strokes: BrushStroke[];
  onChange: (strokes: BrushStroke[]) => void;
  missing: string | null;
}) {
  const { measurement, tools, strokes, onChange, missing } = props;
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
