/** What is expected of the control, which difference is to be found, how alike coupons are: what a simulation must be told. */
import { useState } from "react";
import { type DeclaredQuestion, responseName } from "../../core/trial/declared-question.ts";
import { differenceToFind } from "../../core/trial/offered-margins.ts";
import { ChoiceField, NumberField } from "../parts/field.tsx";
import { chanceText } from "../text/chance.ts";
import { chanceChoices, chosenAsked, saidByTrial, saidOf, withSaid } from "./chance-form.ts";
import { ScatterFrom } from "./scatter-from.tsx";
import type { FormPart } from "./trial-form.ts";

type Expecting = Pick<FormPart, "form" | "change"> & { declared: DeclaredQuestion };

export function ExpectedFields({ form, change, declared }: Expecting) {
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
      <ScatterFrom
        key={responseName(declared)}
        declared={declared}
        taken={said.from ?? null}
        onTake={(taken) => change(withSaid(form, saidByTrial(taken)))}
      />
    </div>
  );
}

export function ScatterField({ form, change, declared }: Expecting) {
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
