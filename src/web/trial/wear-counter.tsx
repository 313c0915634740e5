/** Counting at the bench: so many strokes, look, one press; the two ends fill themselves. */
import { NumberField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { testsText as text } from "../text/tests.ts";
import type { ConditionsForm } from "./wear-conditions-form.ts";

type Counted = Pick<ConditionsForm, "motion"> & { left: string; right: string; every: string };

export function WearCounter({ form, change }: { form: Counted; change: (part: Partial<Counted>) => void }) {
  const every = typedNumber(form.every) ?? 0;
  const left = typedNumber(form.left) ?? 0;
  const right = typedNumber(form.right);
  const next = left + every;
  return (
    <section aria-label={text.counting}>
      <div className="fields">
        <NumberField
          label={text.every}
          unit={form.motion}
          value={form.every}
          onType={(typed) => change({ every: typed })}
        />
      </div>
      <p className="sentence" aria-live="polite">
        {right === null ? text.countTo(next, form.motion) : text.wornOut(left, right)}
      </p>
      <div className="actions">
        {right === null && every > 0 && (
          <>
            <button type="button" className="wet" onClick={() => change({ left: String(next) })}>
              {text.still(next)}
            </button>
            <button
              type="button"
              className="second wet"
              onClick={() => change({ left: String(left), right: String(next) })}
            >
              {text.through(next)}
            </button>
          </>
        )}
        {(right !== null || left > 0) && (
          <button
            type="button"
            className="quiet"
            onClick={() => change(right === null ? { left: String(Math.max(0, left - every)) } : { right: "" })}
          >
            {text.backOne}
          </button>
        )}
      </div>
    </section>
  );
}
