/** A tape test: coupon, date, cut, and the drawing that comes nearest to what came off. */
import type { ReactNode } from "react";
import { type TapeClass, tapeClasses } from "../../core/rating/tape-classes.ts";
import type { Observed, TapeTest, TrialRecord } from "../../core/trial/trial-record.ts";
import { todayDate } from "../parts/clock.ts";
import { ChoiceField } from "../parts/field.tsx";
import { tapeMeaning, tapeText } from "../text/inspect.ts";
import { tapeTestText as text } from "../text/tape.ts";
import { testsText } from "../text/tests.ts";
import { type BenchTest, CouponAndDate, NoteAndKnew } from "../trial/bench-test-fields.tsx";
import { type FormFields, ObserveForm, type ObserveFormProps } from "../trial/observe-form.tsx";
import { typedTestDate, undatedOr } from "../trial/test-date.ts";
import type { LaterReading } from "../waiting/waiting-item.ts";
import { CutProposal } from "./cut-proposal.tsx";
import { HowTo, TapeAsked } from "./tape-asked.tsx";
import { TapeClassFigure } from "./tape-class-figure.tsx";
import {
  type DetailsForm,
  detailsForm,
  detailsOf,
  emptyDetails,
  hasNoNumber,
  latticeCuts,
  partingOf,
} from "./tape-details.ts";
import { type TapePhotos, TapePhotosPart } from "./tape-photos.tsx";
import { tapeRequest } from "./tape-request.ts";
import "./inspect.css";

type Cut = "A" | "B";
type Form = BenchTest & DetailsForm & TapePhotos & { cut: Cut; tapeClass: string };
const shown = ["coupon", "when", "tapeClass", "painted", "note"] as const;
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
          const isPaintWrong = hasNoNumber(form);
          if (form.coupon === "" || when === "missing" || tapeClass === undefined || isPaintWrong)
            return {
              missing: {
                painted: isPaintWrong && text.paintedWrong,
                coupon: form.coupon === "" && testsText.needsCoupon,
                when: when === "missing" && testsText.needsDate,
                tapeClass: tapeClass === undefined && tapeText.noClass,
              },
            };
          const said = { coupon: form.coupon, when, blind: !record.unblinded && !form.knew, note: form.note.trim() };
          if (isOfBefore(corrects)) return { bodies: [{ kind: "tape test", ...said, tapeClass }] };
          const details = detailsOf(form, form.cut, tapeClass, form.reading);
          const counting = details.counts === "photo" && details.photo ? details.photo.tapeClass : tapeClass;
          const body = { kind: "tape test" as const, ...said, tapeClass: counting, details };
          return { bodies: [body], later: laterReading(form, body) };
        }}
        shown={shown}
        fields={(drawn) => <TapeFields record={record} ofBefore={isOfBefore(corrects)} {...drawn} />}
        submit={tapeText.record}
        onWritten={onWritten}
      />
    </>
  );
}

/** Photographs that nobody could read yet; the eye's class stands until they are. */
function laterReading(form: Form, body: TapeTest): LaterReading | null {
  const { before, after, reading, later, counts } = form;
  if (!later || !before || !after || reading) return null;
  const lattice = form.cut === "B" ? latticeCuts[form.spacing] : null;
  return { of: "tape test", request: tapeRequest(before, after, lattice), body, counts, parted: partingOf(form) };
}

/** Written down before cut, tape and paint were asked: its correction asks no more. */
const isOfBefore = (corrects: Observed<TapeTest> | null): boolean =>
  corrects !== null && corrects.body.details === undefined;

const noPhotos: TapePhotos = { before: null, after: null, reading: null, later: false };

function startingForm(corrects: Observed<TapeTest> | null): Form {
  if (corrects === null)
    return {
      ...{ coupon: "", date: todayDate(), cut: "B", tapeClass: "", note: "", knew: false },
      ...emptyDetails,
      ...noPhotos,
    };
  const { coupon, when, tapeClass, note, details } = corrects.body;
  const said = { coupon, date: typedTestDate(when), note, knew: !corrects.body.blind };
  const eyeClass = details?.eyeClass ?? tapeClass;
  return {
    ...said,
    ...detailsForm(details),
    ...noPhotos,
    reading: details?.photo ?? null,
    cut: cutOf(tapeClass),
    tapeClass: eyeClass,
  };
}

const cutOf = (tapeClass: TapeClass): Cut => (tapeClass.endsWith("A") ? "A" : "B");

function TapeFields(drawn: { record: TrialRecord; ofBefore: boolean } & FormFields<Form, Field>) {
  const { form, change, errorAt, ofBefore } = drawn;
  // Once the photographs' class was shown the eye is no longer blind to it.
  const settled = form.reading !== null;
  return (
    <>
      <div className="fields">
        <CouponAndDate {...drawn} />
      </div>
      {!ofBefore && <HowTo cut={form.cut} />}
      {!ofBefore && (
        <CutProposal
          thickness={form.thickness}
          settled={settled}
          isChosen={(one) => one.cut === form.cut && (one.cut === "A" || one.spacing === form.spacing)}
          onType={(thickness) => change({ thickness })}
          onChoose={(one) => change({ ...one, tapeClass: "", ...noPhotos })}
        />
      )}
      <fieldset className="either" disabled={settled}>
        <legend>{tapeText.cut}</legend>
        {(["B", "A"] as const).map((cut) => (
          <label key={cut}>
            <input
              type="radio"
              name="cut"
              checked={form.cut === cut}
              onChange={() => change({ cut, tapeClass: "", ...noPhotos })}
            />
            <span>{tapeText.cuts[cut]}</span>
          </label>
        ))}
      </fieldset>
      {!ofBefore && form.cut === "B" && (
        <ChoiceField
          label={text.spacing}
          value={form.spacing}
          choices={(["1", "2", "3", "5"] as const).map((value) => ({ value, label: text.spacings[value] }))}
          onChoose={(spacing) => change({ spacing, reading: null })}
        />
      )}
      <ClassChoice
        cut={form.cut}
        settled={settled}
        chosen={form.tapeClass}
        onChoose={(tapeClass) => change({ tapeClass })}
        error={errorAt("tapeClass")}
      />
      {!ofBefore && (
        <>
          <details className="more">
            <summary>{text.photos}</summary>
            <TapePhotosPart
              photos={form}
              lattice={form.cut === "B" ? latticeCuts[form.spacing] : null}
              eyeClass={form.tapeClass}
              coupon={form.coupon}
              onChange={change}
            />
          </details>
          <TapeAsked form={form} change={change} />
          {errorAt("painted") && <p className="wrong">{errorAt("painted")}</p>}
        </>
      )}
      <NoteAndKnew {...drawn} hint={tapeText.noteHint} />
    </>
  );
}

function ClassChoice(props: {
  cut: Cut;
  settled: boolean;
  chosen: string;
  onChoose: (tapeClass: TapeClass) => void;
  error: string | null;
}): ReactNode {
  const { cut, settled, chosen, onChoose, error } = props;
  return (
    <fieldset className="tape-classes" disabled={settled}>
      <legend>{tapeText.tapeClass}</legend>
      {tapeClasses
        .filter((one) => cutOf(one) === cut)
        .map((one) => (
          <label key={one}>
            <input type="radio" name="tape class" checked={chosen === one} onChange={() => onChoose(one)} />
            <TapeClassFigure tapeClass={one} />
            <span>
              <b>{one}</b> {tapeMeaning[one]} <small>{text.iso[cut](5 - Number(one[0]))}</small>
            </span>
          </label>
        ))}
      {error && <small className="wrong">{error}</small>}
    </fieldset>
  );
}
