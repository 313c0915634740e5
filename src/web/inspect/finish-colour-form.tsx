/** The finish colour of one coupon: a photograph on the card, read at once, kept when it looks right. */
import { useMutation } from "@tanstack/react-query";
import { type ReactNode, useState } from "react";
import { type ColourReadingRequest, colourReadingAnswer, colourReadingRequest } from "../../api/finish-colour.ts";
import type { Photo } from "../../api/photo.ts";
import { lampSuspectedDeltaE, lighterPatchesDeltaE } from "../../core/rating/lighter-patches.ts";
import { type ColourState, colourStates } from "../../core/trial/seen-as.ts";
import type { ColourReading, FinishColour, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import { finishText, placeOf } from "../../report/finish-text.ts";
import { todayDate } from "../parts/clock.ts";
import { LongTextField } from "../parts/field.tsx";
import { photoTypes } from "../parts/photo-types.ts";
import { Trouble } from "../parts/trouble.tsx";
import { ask, json, NoAnswer } from "../shop/ask.ts";
import { finishColourText as text } from "../text/finish-colour.ts";
import { testsText } from "../text/tests.ts";
import { waitingText } from "../text/waiting.ts";
import { CouponAndDate } from "../trial/bench-test-fields.tsx";
import { type FormFields, ObserveForm, type ObserveFormProps } from "../trial/observe-form.tsx";
import { typedTestDate, undatedOr } from "../trial/test-date.ts";
import { takePhoto, withdrawPhoto } from "../waiting/take-photo.ts";
import { type Corners, startCorners } from "./corner-geometry.ts";
import { CornerPicker } from "./corner-picker.tsx";
import { HeicAdvice, isHeicFile } from "./heic-advice.tsx";
import { keptPlaces } from "./kept-places.ts";
import { pictureUrl } from "./measuring.ts";
import { asRequested, type Places } from "./places.ts";
import "./inspect.css";

type Form = {
  coupon: string;
  date: string;
  note: string;
  knew: boolean;
  state: ColourState;
  photo: Photo | null;
  /** Null: the card shows where the coupon lies. */
  corners: Corners | null;
  reading: ColourReading | null;
  /** The shop was not reached: the photograph is read once it is. */
  later: boolean;
};
const shown = ["coupon", "when", "reading", "note"] as const;
type Field = (typeof shown)[number];

export function FinishColourForm({ record, corrects = null, onWritten }: ObserveFormProps<FinishColour>) {
  return (
    <>
      <p>{text.sentence}</p>
      <ObserveForm
        trialId={record.id}
        about="finish colour"
        corrects={corrects}
        start={() => startingForm(corrects)}
        fill={(form) => {
          const when = undatedOr(form.date, corrects?.body);
          if (form.coupon === "" || when === "missing" || when === null || (form.reading === null && !isLater(form)))
            return {
              missing: {
                coupon: form.coupon === "" && testsText.needsCoupon,
                when: (when === "missing" || when === null) && testsText.needsDate,
                reading: form.reading === null && !isLater(form) && text.needsReading,
              },
            };
          const { coupon, state, reading, note } = form;
          const body = { kind: "finish colour" as const, coupon, when, state, note: note.trim() };
          if (reading) return { bodies: [{ ...body, reading }] };
          return { bodies: [], later: { of: "finish colour", request: requestFor(form, record), body } };
        }}
        shown={shown}
        fields={(drawn) => <ColourFields record={record} {...drawn} />}
        submit={text.keep}
        onWritten={onWritten}
      />
    </>
  );
}

type Read = { photo: Photo | null; corners: Corners | null };
const isLater = ({ photo, later }: Form): boolean => later && photo !== null;

/** What this device left out of the trial's last rust reading; null: nothing. */
function leftOutOf({ id, plan }: TrialRecord): Places | null {
  const kept = keptPlaces(id, { lengthMm: plan.couponSize.lengthMm, widthMm: plan.couponSize.widthMm });
  return kept && kept.hiddenMm.length + kept.outlineMm.length > 0 ? kept : null;
}

function requestFor({ photo, corners }: Read, record: TrialRecord): ColourReadingRequest {
  const { couponSize, edgeBandMm } = record.plan;
  const leftOut = leftOutOf(record);
  return colourReadingRequest.parse({
    photo: photo?.hash,
    cornersPx: corners,
    sizeMm: { lengthMm: couponSize.lengthMm, widthMm: couponSize.widthMm },
    edgeBandMm,
    thicknessMm: couponSize.thicknessMm,
    ...(leftOut ? asRequested(leftOut) : {}),
  });
}

function startingForm(corrects: Observed<FinishColour> | null): Form {
  const begun = { knew: false, photo: null, corners: null, later: false };
  if (corrects === null)
    return { ...begun, coupon: "", date: todayDate(), note: "", state: "dry and wiped", reading: null };
  const { coupon, when, note, state, reading } = corrects.body;
  return { ...begun, coupon, date: typedTestDate(when), note, state, reading };
}

function ColourFields(drawn: { record: TrialRecord } & FormFields<Form, Field>) {
  const { record, form, change, errorAt } = drawn;
  return (
    <>
      <div className="fields">
        <CouponAndDate {...drawn} />
      </div>
      <fieldset className="either">
        <legend>{text.state}</legend>
        {colourStates.map((state) => (
          <label key={state}>
            <input type="radio" name="colour-state" checked={form.state === state} onChange={() => change({ state })} />
            <span>{text.states[state]}</span>
          </label>
        ))}
        <p className="hint">{text.stateHint}</p>
      </fieldset>
      <ColourPhoto record={record} form={form} change={change} />
      {form.reading && (
        <ReadColour reading={form.reading} size={record.plan.couponSize} edgeBandMm={record.plan.edgeBandMm} />
      )}
      {errorAt("reading") && <p className="wrong">{errorAt("reading")}</p>}
      <LongTextField
        label={testsText.note}
        rows={2}
        value={form.note}
        onType={(note) => change({ note })}
        error={errorAt("note")}
      />
    </>
  );
}

function ColourPhoto({
  record,
  form,
  change,
}: { record: TrialRecord } & Pick<FormFields<Form, Field>, "form" | "change">) {
  const { couponSize } = record.plan;
  const leftOut = leftOutOf(record);
  const read = useMutation({
    mutationFn: ({ photo, corners }: { photo: Photo; corners: Corners | null }) =>
      ask(colourReadingAnswer, "/api/colour-readings", json("POST", requestFor({ photo, corners }, record))),
    onSuccess: (answer, { photo, corners }) => {
      if (answer.read) return change({ reading: answer.reading, later: false });
      change({ later: false, corners: answer.cornersPx ?? corners ?? startCorners(photo, couponSize) });
    },
    onError: (failure) => {
      if (failure instanceof NoAnswer) change({ later: true });
    },
  });
  const take = useMutation({
    mutationFn: (file: File) => takePhoto(file, waitingText.colourPhoto(form.coupon)),
    onSuccess: ({ photo, written }) => {
      if (form.photo && form.photo.hash !== photo.hash) void withdrawPhoto(form.photo.hash);
      change({ photo, corners: null, reading: null, later: written === "waiting" });
      if (written === "stored") read.mutate({ photo, corners: null });
    },
  });
  const { photo, corners, reading, later } = form;
  return (
    <section>
      {leftOut && <p className="hint">{text.leftOut}</p>}
      <Trouble error={take.error ?? (later ? null : read.error)} />
      {photo && later && <p className="sentence">{text.later}</p>}
      {take.isPending && <progress aria-label={text.take} />}
      {read.isPending && <p aria-live="polite">{text.reading}</p>}
      {read.data?.read === false && <p className="wrong">{read.data.sentence}</p>}
      {photo && corners && reading === null && (
        <>
          <p className="hint">{text.corners}</p>
          <CornerPicker photo={photo} corners={corners} onChange={(moved) => change({ corners: moved })} />
          <div className="actions">
            <button
              type="button"
              className="wet"
              disabled={read.isPending}
              onClick={() => read.mutate({ photo, corners })}
            >
              {text.read}
            </button>
          </div>
        </>
      )}
      <TakePhoto first={!photo && !reading} onTake={(file) => take.mutate(file)}>
        {photo || reading ? text.another : text.take}
      </TakePhoto>
    </section>
  );
}

function TakePhoto({ first, onTake, children }: { first: boolean; onTake: (file: File) => void; children: ReactNode }) {
  const [heic, setHeic] = useState(false);
  const take = async (file: File) => {
    const isHeic = await isHeicFile(file);
    setHeic(isHeic);
    if (!isHeic) onTake(file);
  };
  return (
    <>
      {heic && <HeicAdvice />}
      <div className="actions">
        <label className={first ? "button wet" : "button second wet"}>
          {children}
          <input
            type="file"
            accept={photoTypes}
            capture="environment"
            className="sr-only"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = "";
              if (file) void take(file);
            }}
          />
        </label>
      </div>
    </>
  );
}

const sentenceOf = (words: string) => `${words[0]!.toUpperCase()}${words.slice(1)}.`;

function ReadColour({
  reading,
  size,
  edgeBandMm,
}: {
  reading: ColourReading;
  size: { lengthMm: number; widthMm: number };
  edgeBandMm: number;
}) {
  const { lab, blotches, map } = reading;
  const faceMm2 = (size.lengthMm - 2 * edgeBandMm) * (size.widthMm - 2 * edgeBandMm);
  const isLamp = lighterPatchesDeltaE(blotches, faceMm2) >= lampSuspectedDeltaE;
  return (
    <section aria-live="polite">
      <p className="sentence">
        <span
          className="swatch"
          aria-hidden="true"
          style={{ background: `lab(${lab.lStar.toFixed(1)}% ${lab.aStar.toFixed(1)} ${lab.bStar.toFixed(1)})` }}
        />
        {sentenceOf(finishText(reading, size))}
      </p>
      {isLamp && <p className="wrong">{text.lamp}</p>}
      <img className="tape-overlay" src={pictureUrl(map)} alt={text.mapAlt} />
      {blotches.length > 0 && (
        <details className="more">
          <summary>{text.mapLabel}</summary>
          <ul>
            {blotches.map(({ xMm, yMm, deltaE, areaMm2, lighter }) => (
              <li key={`${xMm} ${yMm}`}>{text.blotch(placeOf({ xMm, yMm }, size), { deltaE, areaMm2, lighter })}</li>
            ))}
          </ul>
        </details>
      )}
      <p className="hint">{text.trust}</p>
    </section>
  );
}
