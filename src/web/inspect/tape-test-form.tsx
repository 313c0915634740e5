/** A tape test: coupon, date, cut, and the drawing that comes nearest to what came off. */
import type { ReactNode } from "react";
import { type TapeClass, tapeClasses } from "../../core/rating/tape-classes.ts";
import type { Observed, TapeTest, TrialRecord } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { CouponChoice } from "../parts/coupon-choice.tsx";
import { LongTextField, TextField, TickField } from "../parts/field.tsx";
import { tapeMeaning, tapeText } from "../text/inspect.ts";
import { type FormFields, ObserveForm, type ObserveFormProps } from "../trial/observe-form.tsx";
import { typedTestDate, undatedOr } from "../trial/test-date.ts";
import { TapeClassFigure } from "./tape-class-figure.tsx";
import "./inspect.css";

type Cut = "A" | "B";
type Form = { coupon: string; date: string; cut: Cut; tapeClass: string; note: string; knew: boolean };
const shown = ["coupon", "when", "tapeClass", "note"] as const;
type Field = (typeof shown)[number];

export function TapeTestForm({ record, corrects = null, onWritten }: ObserveFormProps<TapeTest>) {
  return (
    <>
      <p>{tapeText.sentence}</p>
      <ObserveForm
        trialId={record.id}
        about="tape test"
        corrects={corrects}
        start={() => startingForm(corrects)}
        fill={(form) => {
          const tapeClass = tapeClasses.find((one) => one === form.tapeClass);
          const when = undatedOr(form.date, corrects?.body);
          if (form.coupon === "" || when === "missing" || tapeClass === undefined)
            return {
              missing: {
                coupon: form.coupon === "" && tapeText.noCoupon,
                when: when === "missing" && tapeText.noDate,
                tapeClass: tapeClass === undefined && tapeText.noClass,
              },
            };
          const blind = !record.unblinded && !form.knew;
          return {
            bodies: [{ kind: "tape test", coupon: form.coupon, when, tapeClass, blind, note: form.note.trim() }],
          };
        }}
        shown={shown}
        fields={(drawn) => <TapeFields record={record} {...drawn} />}
        submit={tapeText.record}
        onWritten={onWritten}
      />
    </>
  );
}

function startingForm(corrects: Observed<TapeTest> | null): Form {
  if (corrects === null) return { coupon: "", date: todayDate(), cut: "B", tapeClass: "", note: "", knew: false };
  const { coupon, when, tapeClass, note } = corrects.body;
  return { coupon, date: typedTestDate(when), cut: cutOf(tapeClass), tapeClass, note, knew: !corrects.body.blind };
}

const cutOf = (tapeClass: TapeClass): Cut => (tapeClass.endsWith("A") ? "A" : "B");

function TapeFields({ record, form, change, errorAt }: { record: TrialRecord } & FormFields<Form, Field>) {
  return (
    <>
      <div className="fields">
        <CouponChoice
          record={record}
          value={form.coupon}
          onChoose={(coupon) => change({ coupon })}
          error={errorAt("coupon")}
        />
        <TextField
          label={tapeText.date}
          type="date"
          value={form.date}
          onType={(date) => change({ date })}
          error={errorAt("when")}
        />
      </div>
      <fieldset className="either">
        <legend>{tapeText.cut}</legend>
        {(["B", "A"] as const).map((cut) => (
          <label key={cut}>
            <input type="radio" name="cut" checked={form.cut === cut} onChange={() => change({ cut, tapeClass: "" })} />
            <span>{tapeText.cuts[cut]}</span>
          </label>
        ))}
      </fieldset>
      <ClassChoice
        cut={form.cut}
        chosen={form.tapeClass}
        onChoose={(tapeClass) => change({ tapeClass })}
        error={errorAt("tapeClass")}
      />
      <LongTextField
        label={tapeText.note}
        hint={tapeText.noteHint}
        rows={2}
        value={form.note}
        onType={(note) => change({ note })}
        error={errorAt("note")}
      />
      {!record.unblinded && <TickField label={tapeText.knew} ticked={form.knew} onTick={(knew) => change({ knew })} />}
    </>
  );
}

function ClassChoice(props: {
  cut: Cut;
  chosen: string;
  onChoose: (tapeClass: TapeClass) => void;
  error: string | null;
}): ReactNode {
  const { cut, chosen, onChoose, error } = props;
  return (
    <fieldset className="tape-classes">
      <legend>{tapeText.tapeClass}</legend>
      {tapeClasses
        .filter((one) => cutOf(one) === cut)
        .map((one) => (
          <label key={one}>
            <input type="radio" name="tape class" checked={chosen === one} onChange={() => onChoose(one)} />
            <TapeClassFigure tapeClass={one} />
            <span>
              <b>{one}</b> {tapeMeaning[one]}
            </span>
          </label>
        ))}
      {error && <small className="wrong">{error}</small>}
    </fieldset>
  );
}
