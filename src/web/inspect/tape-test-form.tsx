/** A tape test: coupon, date, cut, and the drawing that comes nearest to what came off. */
import type { ReactNode } from "react";
import { type TapeClass, tapeClasses } from "../../core/rating/tape-classes.ts";
import type { Observed, TapeTest, TrialRecord } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { tapeMeaning, tapeText } from "../text/inspect.ts";
import { testsText } from "../text/tests.ts";
import { type BenchTest, CouponAndDate, NoteAndKnew } from "../trial/bench-test-fields.tsx";
import { type FormFields, ObserveForm, type ObserveFormProps } from "../trial/observe-form.tsx";
import { typedTestDate, undatedOr } from "../trial/test-date.ts";
import { TapeClassFigure } from "./tape-class-figure.tsx";
import "./inspect.css";

type Cut = "A" | "B";
type Form = BenchTest & { cut: Cut; tapeClass: string };
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
                coupon: form.coupon === "" && testsText.needsCoupon,
                when: when === "missing" && testsText.needsDate,
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

function TapeFields(drawn: { record: TrialRecord } & FormFields<Form, Field>) {
  const { form, change, errorAt } = drawn;
  return (
    <>
      <div className="fields">
        <CouponAndDate {...drawn} />
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
      <NoteAndKnew {...drawn} hint={tapeText.noteHint} />
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
