/** One value of one coupon, for a question that asks for it by its name. */
import type { ValueResponse } from "../../core/trial/declared-question.ts";
import type { MeasuredValue, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField, NumberField, TickField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { testsText as text, valuesAsked } from "../text/tests.ts";
import { type BenchTest, CouponAndDate, NoteAndKnew } from "./bench-test-fields.tsx";
import { type Filled, type FormFields, ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { typedTestDate, undatedOr } from "./test-date.ts";

type Form = BenchTest & { name: string; value: string; again: boolean };
const shown = ["coupon", "name", "value", "when", "note"] as const;
type Field = (typeof shown)[number];

export function ValueForm({ record, corrects = null, onWritten }: ObserveFormProps<MeasuredValue>) {
  const asked = valuesAsked(record.plan.questions);
  return (
    <ObserveForm
      trialId={record.id}
      about="value"
      corrects={corrects}
      start={() => startingForm(asked, corrects)}
      fill={(form) => filled(form, record, corrects)}
      shown={shown}
      fields={(drawn) => <ValueFields record={record} asked={asked} {...drawn} />}
      submit={text.keep}
      onWritten={onWritten}
    />
  );
}

function startingForm(asked: readonly ValueResponse[], corrects: Observed<MeasuredValue> | null): Form {
  if (corrects === null)
    return {
      coupon: "",
      name: asked[0]?.name ?? "",
      value: "",
      date: todayDate(),
      note: "",
      knew: false,
      again: false,
    };
  const { coupon, name, value, when, note, blind } = corrects.body;
  return {
    coupon,
    name,
    value: String(value),
    date: typedTestDate(when),
    note,
    knew: !blind,
    again: corrects.body.again ?? false,
  };
}

function filled(form: Form, record: TrialRecord, corrects: Observed<MeasuredValue> | null): Filled<Field> {
  const when = undatedOr(form.date, corrects?.body);
  const value = typedNumber(form.value);
  if (form.coupon === "" || value === null || when === "missing")
    return {
      missing: {
        coupon: form.coupon === "" && text.needsCoupon,
        value: value === null && text.needsValue,
        when: when === "missing" && text.needsDate,
      },
    };
  const body: MeasuredValue = {
    kind: "value",
    coupon: form.coupon,
    name: form.name,
    value,
    when,
    how: "bench",
    blind: !record.unblinded && !form.knew,
    note: form.note.trim(),
    ...(form.again ? { again: true as const } : {}),
  };
  return { bodies: [body] };
}

function ValueFields(drawn: { record: TrialRecord; asked: ValueResponse[] } & FormFields<Form, Field>) {
  const { asked, form, change, errorAt } = drawn;
  return (
    <>
      <div className="fields">
        {asked.length > 1 && (
          <ChoiceField
            label={text.what}
            value={form.name}
            choices={asked.map(({ name }) => ({ value: name, label: name }))}
            onChoose={(name) => change({ name, value: "" })}
            error={errorAt("name")}
          />
        )}
        <CouponAndDate {...drawn} />
        <ReadField
          asked={asked.find(({ name }) => name === form.name) ?? null}
          value={form.value}
          onRead={(value) => change({ value })}
          error={errorAt("value")}
        />
      </div>
      {isReadAlready(drawn.record, form) && (
        <TickField label={text.againValue} ticked={form.again} onTick={(again) => change({ again })} />
      )}
      <NoteAndKnew {...drawn} />
    </>
  );
}

const isReadAlready = ({ values }: TrialRecord, { coupon, name, again }: Form): boolean =>
  again || values.some(({ body }) => body.coupon === coupon && body.name === name);

type Reading = {
  asked: ValueResponse | null;
  value: string;
  onRead: (value: string) => void;
  error: string | null;
};

/** Yes or no, a class, or a number in its unit. */
function ReadField({ asked, value, onRead, error }: Reading) {
  const choices = asked === null ? null : choicesOf(asked);
  if (asked !== null && choices !== null)
    return (
      <ChoiceField
        label={asked.scale ? `${asked.name}. ${text.class(asked.scale.best, asked.scale.worst)}` : asked.name}
        value={value}
        choices={[{ value: "", label: text.choose }, ...choices]}
        onChoose={onRead}
        error={error}
      />
    );
  const unit = asked?.kind === "area" ? "%" : (asked?.unit ?? "");
  return <NumberField label={asked?.name ?? text.value} unit={unit} value={value} onType={onRead} error={error} />;
}

function choicesOf({ kind, scale }: ValueResponse): { value: string; label: string }[] | null {
  if (kind === "binary")
    return [
      { value: "1", label: text.good.yes },
      { value: "0", label: text.good.no },
    ];
  if (scale === null) return null;
  const step = scale.worst > scale.best ? 1 : -1;
  return Array.from({ length: Math.abs(scale.worst - scale.best) + 1 }, (_, at) => {
    const one = String(scale.best + at * step);
    return { value: one, label: one };
  });
}
