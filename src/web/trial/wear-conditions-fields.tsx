/** What rubs and how: filled in as at the coupon before, and said where it is changed. */
import { type WearConditions, wearMotions } from "../../core/trial/wear-conditions.ts";
import { ChoiceField, NumberField, TextField } from "../parts/field.tsx";
import { testsText as text } from "../text/tests.ts";
import { type ConditionsForm, unlikeBefore } from "./wear-conditions-form.ts";

const names = {
  motion: text.motion,
  medium: text.medium,
  grit: text.grit,
  loadG: text.load,
  perMinute: text.speed,
  by: text.by,
} satisfies Record<keyof WearConditions, string>;

export function WearConditionsFields(props: {
  form: ConditionsForm;
  change: (part: Partial<ConditionsForm>) => void;
  before: WearConditions | null;
}) {
  const { form, change, before } = props;
  const unlike = unlikeBefore(form, before);
  return (
    <>
      <div className="fields">
        <ChoiceField
          label={text.motion}
          value={form.motion}
          choices={wearMotions.map((value) => ({ value, label: text.motions[value] }))}
          onChoose={(motion) => change({ motion })}
        />
        <TextField
          label={text.medium}
          hint={text.mediumHint}
          value={form.medium}
          onType={(medium) => change({ medium })}
        />
        <TextField label={text.grit} value={form.grit} onType={(grit) => change({ grit })} />
        <NumberField label={text.load} unit="g" value={form.loadG} onType={(loadG) => change({ loadG })} />
        <NumberField
          label={text.speed}
          unit={text.perMinute}
          value={form.perMinute}
          onType={(perMinute) => change({ perMinute })}
        />
        <ChoiceField
          label={text.by}
          value={form.by}
          choices={(["hand", "jig", "unknown"] as const).map((value) => ({ value, label: text.bys[value] }))}
          onChoose={(by) => change({ by })}
        />
      </div>
      {unlike.length > 0 && <p className="wrong">{text.unlike(unlike.map((name) => names[name].toLowerCase()))}</p>}
    </>
  );
}
