/** A labelled input with its unit, a hint, and what was wrong with it right beside it. */
import { type InputHTMLAttributes, type ReactNode, type TextareaHTMLAttributes, useId } from "react";

type Around = { label: string; hint?: ReactNode; error?: string | null | undefined; unit?: string };

type Wired = { id: string; "aria-describedby": string | undefined; "aria-invalid": true | undefined };

/** The frame that every kind of input shares. */
export function FieldFrame({ label, hint, error, unit, children }: Around & { children: (wired: Wired) => ReactNode }) {
  const id = useId();
  const described = [hint ? `${id}-hint` : null, error ? `${id}-error` : null].filter((one) => one !== null);
  return (
    <div className={error ? "field field-wrong" : "field"}>
      <label htmlFor={id}>{label}</label>
      <span className="field-row">
        {children({
          id,
          "aria-describedby": described.length > 0 ? described.join(" ") : undefined,
          "aria-invalid": error ? true : undefined,
        })}
        {unit && <span className="unit">{unit}</span>}
      </span>
      {hint && (
        <small id={`${id}-hint`} className="hint">
          {hint}
        </small>
      )}
      {error && (
        <small id={`${id}-error`} className="wrong">
          {error}
        </small>
      )}
    </div>
  );
}

type Typed = { value: string; onType: (value: string) => void };

export function TextField({
  label,
  hint,
  error,
  unit,
  value,
  onType,
  ...rest
}: Around & Typed & Omit<InputHTMLAttributes<HTMLInputElement>, "value" | "onChange" | "id">) {
  return (
    <FieldFrame label={label} hint={hint} error={error} {...(unit ? { unit } : {})}>
      {(wired) => <input {...rest} {...wired} value={value} onChange={(event) => onType(event.target.value)} />}
    </FieldFrame>
  );
}

/** A number as text, so that half of one ("1.") can stand there; the unit is part of the field. */
export function NumberField(props: Around & Typed & { name?: string }) {
  return <TextField {...props} inputMode="decimal" autoComplete="off" className="number" />;
}

export function LongTextField({
  label,
  hint,
  error,
  value,
  onType,
  ...rest
}: Around & Typed & Omit<TextareaHTMLAttributes<HTMLTextAreaElement>, "value" | "onChange" | "id">) {
  return (
    <FieldFrame label={label} hint={hint} error={error}>
      {(wired) => (
        <textarea rows={3} {...rest} {...wired} value={value} onChange={(event) => onType(event.target.value)} />
      )}
    </FieldFrame>
  );
}

export type Choice<Value extends string> = { value: Value; label: string };

export function ChoiceField<Value extends string>({
  label,
  hint,
  error,
  value,
  choices,
  onChoose,
}: Around & { value: Value; choices: readonly Choice<Value>[]; onChoose: (value: Value) => void }) {
  return (
    <FieldFrame label={label} hint={hint} error={error}>
      {(wired) => (
        <select
          {...wired}
          value={value}
          onChange={(event) => {
            const chosen = choices.find((choice) => choice.value === event.target.value);
            if (chosen) onChoose(chosen.value);
          }}
        >
          {choices.map((choice) => (
            <option key={choice.value} value={choice.value}>
              {choice.label}
            </option>
          ))}
        </select>
      )}
    </FieldFrame>
  );
}

export function TickField({
  label,
  ticked,
  onTick,
}: {
  label: string;
  ticked: boolean;
  onTick: (ticked: boolean) => void;
}) {
  return (
    <label className="tick">
      <input type="checkbox" checked={ticked} onChange={(event) => onTick(event.target.checked)} />
      <span>{label}</span>
    </label>
  );
}
