/** How many coupons of each: a curve of what they could show, with a handle to drag and the sentence beside it. */
import { useDeferredValue, useState } from "react";
import { differenceToFind } from "../../core/trial/offered-margins.ts";
import { ChanceBoard } from "../outlook/chance-board.tsx";
import { chanceRefusal } from "../outlook/chance-plan.ts";
import { NumberField } from "../parts/field.tsx";
import { chanceText } from "../text/chance.ts";
import { chanceWish, controlTyped, couponsTyped, withEach } from "./chance-form.ts";
import type { FormPart, TrialForm } from "./trial-form.ts";

export function ChancePart({ form, change }: FormPart) {
  const wish = chanceWish(form);
  const declared = wish.plan?.declared ?? (wish.missing === null ? null : wish.declared);
  const coupons = couponsTyped(form.treatments);
  const refusal = wish.plan && chanceRefusal(wish.plan);
  return (
    <section className="chance-part" aria-labelledby="chance-title">
      <h3 id="chance-title">{chanceText.title}</h3>
      <p className="lead">{chanceText.explain}</p>
      {declared && (
        <div className="fields">
          <NumberField
            label={chanceText.controls(declared)}
            unit={chanceText.controlUnits(declared)}
            hint={chanceText.controlHint}
            value={controlTyped(form, declared)}
            onType={(typed) =>
              change(declared.response === "time to first rust" ? { controlMedian: typed } : { chanceControl: typed })
            }
          />
          <NumberField
            label={chanceText.size}
            unit={chanceText.sizeUnits(declared)}
            hint={chanceText.sizeHint(differenceToFind(declared))}
            value={form.chanceSize}
            onType={(chanceSize) => change({ chanceSize })}
          />
        </div>
      )}
      {wish.missing !== null && <p className="hint">{chanceText.missing[wish.missing]}</p>}
      {refusal && <p className="wrong">{refusal}</p>}
      {wish.plan && !refusal && coupons && (
        <Board
          plan={JSON.stringify(wish.plan)}
          coupons={coupons}
          onEach={(each) => change({ treatments: withEach(form.treatments, each) })}
          onBlocks={(blocks) => change({ blocks: String(blocks) })}
        />
      )}
      {declared?.response === "time to first rust" && wish.plan && <ShapeField form={form} change={change} />}
    </section>
  );
}

/** The curve follows the handle at once and the typing when there is time. */
function Board(props: {
  plan: string;
  coupons: { each: number; unequal: boolean };
  onEach: (each: number) => void;
  onBlocks: (blocks: number) => void;
}) {
  const plan = useDeferredValue(props.plan);
  return <ChanceBoard {...props} plan={plan} />;
}

function ShapeField({ form, change }: { form: TrialForm; change: FormPart["change"] }) {
  const [begun] = useState(form.chanceShape !== "");
  return (
    <details className="more" open={begun}>
      <summary>{chanceText.shape}</summary>
      <div className="inside">
        <NumberField
          label={chanceText.shape}
          hint={chanceText.shapeHint}
          value={form.chanceShape}
          onType={(chanceShape) => change({ chanceShape })}
        />
      </div>
    </details>
  );
}
