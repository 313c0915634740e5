/** A value under a name of the user's own: what it is, in what, and which way is better. */
import { colourMeasures, colourStates } from "../../core/trial/seen-as.ts";
import { weighedAs } from "../../core/trial/weighed-as.ts";
import { ChoiceField, NumberField, TextField, TickField } from "../parts/field.tsx";
import { askedText as text } from "../text/asked.ts";
import { finishColourText } from "../text/finish-colour.ts";
import { type AskedForm, isColourMeasure } from "./asked-form.ts";

export function AskedValueFields({
  question,
  onChange,
  errorAt,
}: {
  question: AskedForm;
  onChange: (part: Partial<AskedForm>) => void;
  errorAt: (inner: string) => string | null;
}) {
  const { name, kind, unit, better, ratio, best, worst, weighed, state } = question;
  return (
    <>
      <TextField
        label={text.name}
        hint={text.nameHint}
        value={name}
        onType={(typed) => onChange({ name: typed })}
        error={errorAt("/name")}
      />
      <ChoiceField
        label={text.kind}
        value={kind}
        choices={(["continuous", "ordinal", "binary", "area"] as const).map((value) => ({
          value,
          label: text.kinds[value],
        }))}
        onChoose={(chosen) => onChange({ kind: chosen })}
      />
      {kind === "continuous" && (
        <ChoiceField
          label={text.weighed}
          hint={weighed === "stripping" ? text.stripping : undefined}
          value={weighed}
          choices={(["typed", ...weighedAs, ...colourMeasures] as const).map((value) => ({
            value,
            label: text.weighedAs[value],
          }))}
          onChoose={(chosen) => onChange({ weighed: chosen })}
        />
      )}
      {kind === "continuous" && isColourMeasure(weighed) && (
        <ChoiceField
          label={text.state}
          hint={finishColourText.stateHint}
          value={state}
          choices={colourStates.map((value) => ({ value, label: finishColourText.states[value] }))}
          onChoose={(chosen) => onChange({ state: chosen })}
        />
      )}
      {kind === "continuous" && weighed === "typed" && (
        <TextField
          label={text.unit}
          hint={text.unitHint}
          value={unit}
          onType={(typed) => onChange({ unit: typed })}
          error={errorAt("/unit")}
        />
      )}
      {(kind === "continuous" || kind === "area") && (
        <ChoiceField
          label={text.better}
          value={better}
          choices={(["higher", "lower"] as const).map((value) => ({ value, label: text.betters[value] }))}
          onChoose={(chosen) => onChange({ better: chosen })}
        />
      )}
      {kind === "continuous" && (
        <TickField label={text.ratio} ticked={ratio} onTick={(ticked) => onChange({ ratio: ticked })} />
      )}
      {kind === "ordinal" && (
        <>
          <NumberField
            label={text.best}
            value={best}
            onType={(typed) => onChange({ best: typed })}
            error={errorAt("/scale/best") ?? errorAt("/scale")}
          />
          <NumberField
            label={text.worst}
            value={worst}
            onType={(typed) => onChange({ worst: typed })}
            error={errorAt("/scale/worst")}
          />
        </>
      )}
    </>
  );
}
