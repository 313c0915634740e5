/** Strokes to breakthrough of one coupon: whole after so many, through by so many. */
import type { WearPlace } from "../../core/trial/declared-question.ts";
import type { Observed, TrialRecord, WearTest } from "../../core/trial/trial-record.ts";
import type { WearConditions } from "../../core/trial/wear-conditions.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField, NumberField, TickField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { testsText as text } from "../text/tests.ts";
import { type BenchTest, CouponAndDate, NoteAndKnew } from "./bench-test-fields.tsx";
import { type Filled, type FormFields, ObserveForm, type ObserveFormProps } from "./observe-form.tsx";
import { typedTestDate, undatedOr } from "./test-date.ts";
import { WearConditionsFields } from "./wear-conditions-fields.tsx";
import { type ConditionsForm, conditionsForm, conditionsOf } from "./wear-conditions-form.ts";
import { WearCounter } from "./wear-counter.tsx";

type Place = WearPlace | "unknown";
type Form = BenchTest &
  ConditionsForm & { place: Place; left: string; right: string; every: string; massLostMg: string; again: boolean };
const shown = [
  "coupon",
  "when",
  "place",
  "leftStrokes",
  "rightStrokes",
  "conditions.motion",
  "massLostMg",
  "note",
] as const;
type Field = (typeof shown)[number];

export function WearTestForm({ record, corrects = null, onWritten }: ObserveFormProps<WearTest>) {
  return (
    <>
      <p>{text.wearSentence}</p>
      <p className="hint">{text.wearCautions}</p>
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
    </>
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
      every: "10",
      massLostMg: "",
      again: false,
      ...conditionsForm(lastConditions(record)),
      note: "",
      knew: false,
    };
  const { coupon, when, place, leftStrokes, rightStrokes, note, blind, conditions, massLostMg, again } = corrects.body;
  return {
    coupon,
    date: typedTestDate(when),
    place: place ?? "unknown",
    left: String(leftStrokes),
    right: rightStrokes === null ? "" : String(rightStrokes),
    every: "10",
    massLostMg: massLostMg === undefined ? "" : String(massLostMg),
    again: again ?? false,
    ...conditionsForm(conditions ?? null),
    note,
    knew: !blind,
  };
}

function filled(form: Form, record: TrialRecord, corrects: Observed<WearTest> | null): Filled<Field> {
  const when = undatedOr(form.date, corrects?.body);
  const left = typedNumber(form.left);
  const right = form.right.trim() === "" ? null : typedNumber(form.right);
  const rightWrong = form.right.trim() !== "" && right === null;
  const massLostMg = form.massLostMg.trim() === "" ? undefined : typedNumber(form.massLostMg);
  const conditions = conditionsOf(form);
  if (
    form.coupon === "" ||
    when === "missing" ||
    left === null ||
    rightWrong ||
    massLostMg === null ||
    conditions === null
  )
    return {
      missing: {
        coupon: form.coupon === "" && text.needsCoupon,
        when: when === "missing" && text.needsDate,
        leftStrokes: left === null && text.needsNumber,
        rightStrokes: rightWrong && text.needsNumber,
        massLostMg: massLostMg === null && text.needsNumber,
        "conditions.motion": conditions === null && text.needsNumber,
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
    // One that was written down before this was asked, or in a table, stays as it is.
    ...(corrects !== null && corrects.body.conditions === undefined ? {} : { conditions }),
    ...(massLostMg === undefined ? {} : { massLostMg }),
    ...(form.again ? { again: true as const } : {}),
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
      </div>
      <WearConditionsFields form={form} change={change} before={lastConditions(record)} />
      {errorAt("conditions.motion") && <p className="wrong">{errorAt("conditions.motion")}</p>}
      <WearCounter form={form} change={change} />
      <div className="fields">
        <NumberField
          label={text.leftStrokes}
          unit={form.motion}
          value={form.left}
          onType={(left) => change({ left })}
          error={errorAt("leftStrokes")}
        />
        <NumberField
          label={text.rightStrokes}
          unit={form.motion}
          hint={text.rightStrokesHint}
          value={form.right}
          onType={(right) => change({ right })}
          error={errorAt("rightStrokes")}
        />
        <NumberField
          label={text.massLost}
          unit="mg"
          hint={text.massLostHint}
          value={form.massLostMg}
          onType={(massLostMg) => change({ massLostMg })}
          error={errorAt("massLostMg")}
        />
      </div>
      {isRunAlready(record, form) && (
        <TickField label={text.again} ticked={form.again} onTick={(again) => change({ again })} />
      )}
      <NoteAndKnew {...drawn} />
    </>
  );
}

/** The next coupon is rubbed as the one before. */
const lastConditions = ({ wearTests }: TrialRecord): WearConditions | null =>
  wearTests.findLast(({ body }) => body.conditions !== undefined)?.body.conditions ?? null;

const isRunAlready = ({ wearTests }: TrialRecord, { coupon, place, again }: Form): boolean =>
  again || wearTests.some(({ body }) => body.coupon === coupon && (body.place ?? "unknown") === place);
