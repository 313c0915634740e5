/** The film's thickness, and the cut that it asks for: a proposal beside the choice, taken with one tap or left alone. */
import { type ProposedCut, proposedCut } from "../../core/rating/proposed-cut.ts";
import { NumberField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { tapeTestText as text } from "../text/tape.ts";
import { isNoNumber, type Spacing } from "./tape-details.ts";

type Chosen = { cut: "A" } | { cut: "B"; spacing: Spacing };

export function CutProposal(props: {
  thickness: string;
  isChosen: (one: Chosen) => boolean;
  settled: boolean;
  onType: (thickness: string) => void;
  onChoose: (one: Chosen) => void;
}) {
  const { thickness, isChosen, settled, onType, onChoose } = props;
  const thicknessUm = typedNumber(thickness);
  const proposed = thicknessUm !== null && thicknessUm > 0 ? proposedCut(thicknessUm) : null;
  const wanted = proposed && chosenBy(proposed);
  return (
    <>
      <div className="fields">
        <NumberField
          label={text.thickness}
          unit="µm"
          value={thickness}
          onType={onType}
          error={isNoNumber(thickness) ? text.noNumber : null}
        />
      </div>
      {proposed && wanted && (
        <>
          <p className="hint">{text.proposal(proposed)}</p>
          {!settled && !isChosen(wanted) && (
            <div className="actions">
              <button type="button" className="second" onClick={() => onChoose(wanted)}>
                {text.takeProposal}
              </button>
            </div>
          )}
        </>
      )}
    </>
  );
}

function chosenBy({ d3359 }: ProposedCut): Chosen {
  if (d3359.form === "x-cut") return { cut: "A" };
  return { cut: "B", spacing: d3359.spacingMm === 1 ? "1" : "2" };
}
