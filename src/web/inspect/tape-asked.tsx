/** How a tape test is made, and what is asked beside its class: tape, parting, paint. */
import { tapeClasses } from "../../core/rating/tape-classes.ts";
import { tapePartings } from "../../core/trial/tape-test.ts";
import { ChoiceField, NumberField, TextField, TickField } from "../parts/field.tsx";
import { tapeTestText as text } from "../text/tape.ts";
import { TapeClassFigure } from "./tape-class-figure.tsx";
import { TapeClock } from "./tape-clock.tsx";
import { type DetailsForm, isNoNumber } from "./tape-details.ts";
import type { TapePhotos } from "./tape-photos.tsx";

export function HowTo({ cut }: { cut: "A" | "B" }) {
  return (
    <details className="more">
      <summary>{text.how}</summary>
      <p>{text.standards}</p>
      <ol>
        {text.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <ul className="tape-drawn">
        {tapeClasses
          .filter((one) => one.endsWith(cut))
          .map((one) => (
            <li key={one}>
              <TapeClassFigure tapeClass={one} />
              <small>{text.drawn(one, text.iso[cut](5 - Number(one[0])))}</small>
            </li>
          ))}
      </ul>
      <p>{text.cautions}</p>
      <TapeClock />
    </details>
  );
}

export function TapeAsked(props: { form: DetailsForm & TapePhotos; change: (part: Partial<DetailsForm>) => void }) {
  const { form, change } = props;
  return (
    <>
      {form.reading && (
        <fieldset className="either">
          <legend>{text.counts}</legend>
          {(["photo", "eye"] as const).map((one) => (
            <label key={one}>
              <input
                type="radio"
                name="counts"
                checked={form.counts === one}
                onChange={() => change({ counts: one })}
              />
              <span>{one === "photo" ? text.countsPhoto : text.countsEye}</span>
            </label>
          ))}
        </fieldset>
      )}
      <div className="fields">
        <ChoiceField
          label={text.parted}
          value={form.parted}
          choices={tapePartings.map((value): { value: string; label: string } => ({
            value,
            label: text.partings[value],
          }))}
          onChoose={(parted) => change({ parted })}
        />
        <TextField label={text.tape} hint={text.tapeHint} value={form.tape} onType={(tape) => change({ tape })} />
      </div>
      <TickField label={text.qualified} ticked={form.qualified} onTick={(qualified) => change({ qualified })} />
      {!form.qualified && <p className="hint">{text.unqualified}</p>}
      <details className="more">
        <summary>{text.painted}</summary>
        <div className="fields">
          <TextField label={text.primer} value={form.primer} onType={(primer) => change({ primer })} />
          {(
            [
              ["passes", ""],
              ["steelTemp", "°C"],
              ["flash", "min"],
              ["cure", "h"],
            ] as const
          ).map(([name, unit]) => (
            <NumberField
              key={name}
              label={text[name]}
              unit={unit}
              value={form[name]}
              onType={(typed) => change({ [name]: typed })}
              error={isNoNumber(form[name]) ? text.noNumber : null}
            />
          ))}
        </div>
      </details>
    </>
  );
}
