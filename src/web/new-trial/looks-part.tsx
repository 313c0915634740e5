/** When to look: dense at first is what is offered. */
import { offeredLookDays } from "../../core/trial/look-calendar.ts";
import { NumberField, TextField } from "../parts/field.tsx";
import { WhySaid } from "../parts/why.tsx";
import { newTrialText } from "../text/new-trial.ts";
import { whyPlanText } from "../text/why-plan.ts";
import { daysTyped, type FormPart, firstSeasonDays } from "./trial-form.ts";

const text = newTrialText.looks;

export function LooksPart({ form, change, errorAt }: FormPart) {
  const last = daysTyped(form.looks)?.at(-1) ?? firstSeasonDays;
  const offered = offeredLookDays(Math.max(last, 1)).join(", ");
  return (
    <section aria-labelledby="look-days-title">
      <h2 id="look-days-title">{text.title}</h2>
      <div>
        <TextField
          label={text.days}
          hint={text.hint}
          value={form.looks}
          onType={(looks) => change({ looks })}
          error={errorAt("/draft/lookDays")}
          inputMode="numeric"
        />
        <WhySaid {...whyPlanText.lookDays} />
      </div>
      {form.looks.trim() !== offered && (
        <button type="button" className="quiet" onClick={() => change({ looks: offered })}>
          {text.propose}
        </button>
      )}
      <details className="more">
        <summary>{text.former}</summary>
        <div className="inside fields">
          <NumberField
            label={text.controlMedian}
            unit={text.unit}
            value={form.controlMedian}
            onType={(controlMedian) => change({ controlMedian })}
          />
          <NumberField
            label={text.bestMedian}
            unit={text.unit}
            value={form.bestMedian}
            onType={(bestMedian) => change({ bestMedian })}
          />
        </div>
      </details>
    </section>
  );
}
