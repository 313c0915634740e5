/** Strokes to breakthrough of one coupon: whole after so many, through by so many. */
import type { WearPlace } from "../../core/trial/declared-question.ts";
import type { Observed, TrialRecord, WearTest } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField, NumberField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { testsText as text } from "../text/tests.ts";
import { type BenchTest, CouponAndDate, NoteAndKnew } from "./bench-test-fields.tsx";
import { type Filled, type FormFields, ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { typedTestDate, undatedOr } from "./test-date.ts";

type Place = WearPlace | "unknown";
type Form = BenchTest & { place: Place; left: string; right: string };
const shown = ["coupon", "when", "place", "leftStrokes", "rightStrokes", "note"] as const;
type Field = (typeof shown)[number];

export function WearTestForm({ record, corrects = null, onWritten }: ObserveFormProps<WearTest>) {
  return (
    <ObserveForm
      trialId={record.id}
      about="wear test"
      corrects={corrects}
      start={() => startingForm(record, corrects)}
      fill={(form) => filled(form, record, corrects)}
      shown={shown}
      fields={(drawn) => <WearFields record={record} {...drawn} />}
      submit={text.keep}
      onWritten={onWritten}
    />
  );
}

function startingForm(record: TrialRecord, corrects: Observed<WearTest> | null): Form {
  if (corrects === null)
    return {
      coupon: "",
      date: todayDate(),
      place: placesAsked(record)[0]!,
      left: "",
      right: "",
      note: "",
      knew: false,
    };
  const { coupon, when, place, leftStrokes, rightStrokes, note, blind } = corrects.body;
  return {
    coupon,
    date: typedTestDate(when),
    place: place ?? "unknown",
    left: String(leftStrokes),
    right: rightStrokes === null ? "" : String(rightStrokes),
    note,
    knew: !blind,
  };
}

function filled(form: Form, record: TrialRecord, corrects: Observed<WearTest> | null): Filled<Field> {
  const when = undatedOr(form.date, corrects?.body);
  const left = typedNumber(form.left);
  const right = form.right.trim() === "" ? null : typedNumber(form.right);
  const rightWrong = form.right.trim() !== "" && right === null;
  if (form.coupon === "" || when === "missing" || left === null || rightWrong)
    return {
      missing: {
        coupon: form.coupon === "" && text.needsCoupon,
        when: when === "missing" && text.needsDate,
        leftStrokes: left === null && text.needsNumber,
        rightStrokes: rightWrong && text.needsNumber,
      },
    };
  const body: WearTest = {
    kind: "wear test",
    coupon: form.coupon,
    place: form.place === "unknown" ? null : form.place,
    when,
    leftStrokes: left,
    rightStrokes: right,
    blind: !record.unblinded && !form.knew,
    note: form.note.trim(),
  };
  return { bodies: [body] };
}

/** Those that a question asks for; a trial of a table may not know where it was rubbed. */
function placesAsked({ plan }: TrialRecord): Place[] {
  const asked = plan.questions.flatMap((one): Place[] =>
    one.response === "strokes to breakthrough" ? [one.place ?? "unknown"] : [],
  );
  return asked.length > 0 ? [...new Set(asked)] : ["face", "edge"];
}

function WearFields(drawn: { record: TrialRecord } & FormFields<Form, Field>) {
  const { record, form, change, errorAt } = drawn;
  const places = [...new Set<Place>([...placesAsked(record), form.place])];
  return (
    <>
      <div className="fields">
        <CouponAndDate {...drawn} />
        {places.length > 1 && (
          <ChoiceField
            label={text.place}
            value={form.place}
            choices={places.map((value) => ({ value, label: text.places[value] }))}
            onChoose={(place) => change({ place })}
            error={errorAt("place")}
          />
        )}
        <NumberField
          label={text.leftStrokes}
          unit={text.strokes}
          value={form.left}
          onType={(left) => change({ left })}
          error={errorAt("leftStrokes")}
        />
        <NumberField
          label={text.rightStrokes}
          unit={text.strokes}
          hint={text.rightStrokesHint}
          value={form.right}
          onType={(right) => change({ right })}
          error={errorAt("rightStrokes")}
        />
      </div>
      <NoteAndKnew {...drawn} />
    </>
  );
}
