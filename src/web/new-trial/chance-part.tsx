/** How many coupons of each: a curve of what they could show, with a handle to drag and the sentence beside it. */
import { useDeferredValue, useState } from "react";
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import { differenceToFind } from "../../core/trial/offered-margins.ts";
import { ChanceBoard } from "../outlook/chance-board.tsx";
import { chanceRefusal } from "../outlook/chance-plan.ts";
import { ChoiceField, NumberField } from "../parts/field.tsx";
import { chanceText } from "../text/chance.ts";
import { chanceChoices, chanceWish, chosenAsked, couponsTyped, saidOf, withEach, withSaid } from "./chance-form.ts";
import type { FormPart } from "./trial-form.ts";

export function ChancePart({ form, change }: FormPart) {
  const wish = chanceWish(form);
  const { declared } = wish;
  const coupons = wish.plan && couponsTyped(form, wish.plan);
  const refusal = wish.plan && chanceRefusal(wish.plan);
  return (
    <section className="chance-part" aria-labelledby="chance-title">
      <h3 id="chance-title">{chanceText.title}</h3>
      <p className="lead">{chanceText.explain}</p>
      {declared && <ExpectedFields form={form} change={change} declared={declared} />}
      {wish.missing !== null && <p className="hint">{chanceText.missing[wish.missing]}</p>}
      {refusal && <p className="wrong">{refusal}</p>}
      {wish.plan && !refusal && coupons && (
        <Board
          plan={JSON.stringify(wish.plan)}
          coupons={coupons}
          onEach={(each) => change(withEach(form, wish.plan, each))}
          onBlocks={(blocks) => change({ blocks: String(blocks) })}
        />
      )}
      {declared && wish.missing !== "control" && <ScatterField form={form} change={change} declared={declared} />}
    </section>
  );
}

type Expecting = Pick<FormPart, "form" | "change"> & { declared: DeclaredQuestion };

function ExpectedFields({ form, change, declared }: Expecting) {
  const choices = chanceChoices(form);
  const chosen = chosenAsked(form);
  const said = saidOf(form, declared);
  return (
    <div className="fields">
      {choices.length > 1 && chosen && (
        <ChoiceField
          label={chanceText.of}
          value={String(form.asked.indexOf(chosen))}
          choices={choices}
          onChoose={(chanceOf) => change({ chanceOf })}
        />
      )}
      <NumberField
        label={chanceText.controls(declared)}
        unit={chanceText.controlUnits(declared)}
        hint={chanceText.controlHint}
        value={said.control}
        onType={(control) => change(withSaid(form, { control }))}
      />
      <NumberField
        label={chanceText.size}
        unit={chanceText.sizeUnits(declared)}
        hint={chanceText.sizeHint(differenceToFind(declared))}
        value={said.size}
        onType={(size) => change(withSaid(form, { size }))}
      />
    </div>
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

function ScatterField({ form, change, declared }: Expecting) {
  const { scatter } = saidOf(form, declared);
  const words = chanceText.scatter(declared);
  const [begun] = useState(scatter !== "");
  if (words === null) return null;
  return (
    <details className="more" open={begun}>
      <summary>{words.label}</summary>
      <div className="inside">
        <NumberField {...words} value={scatter} onType={(typed) => change(withSaid(form, { scatter: typed }))} />
      </div>
    </details>
  );
}
