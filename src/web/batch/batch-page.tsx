/** Many photographs chosen at once: each finds its coupon, is sent and measured, and looked at before its look is written down. */
import { useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { Photo } from "../../api/photo.ts";
import type { TrialDocument } from "../../api/shop.ts";
import { type TrialRecord, trialRecord } from "../../core/trial/trial-record.ts";
import { cardForCoupon } from "../../core/vision/measuring-card.ts";
import { firstPhotograph, leftOutBefore, photographsOf } from "../inspect/earlier-photographs.ts";
import { readsOfTrial } from "../inspect/kept-reads-of-trial.ts";
import { LookDate } from "../inspect/look-date.tsx";
import { requestFor } from "../inspect/measuring.ts";
import { Asked } from "../parts/asked.tsx";
import { Choices } from "../parts/choices.tsx";
import { todayDate } from "../parts/clock.ts";
import { TickField } from "../parts/field.tsx";
import { photoTypes } from "../parts/photo-types.ts";
import { newId } from "../shop/new-id.ts";
import { useTrial } from "../shop/queries.ts";
import { useChosenModel } from "../shop/rust-models.ts";
import { batchText as text } from "../text/batch.ts";
import { inspectText } from "../text/inspect.ts";
import { BatchList } from "./batch-list.tsx";
import { type BatchRow, isToDo, isUnderWay, rowFault, rowsOf, standingOf } from "./batch-rows.ts";
import { runBatch } from "./run-batch.ts";
import { WriteLooks } from "./write-looks.tsx";
import "../inspect/inspect.css";
import "./batch.css";

export function BatchPage({ id }: { id: string }) {
  return <Asked query={useTrial(id)}>{(trial) => <Batch trial={trial} />}</Asked>;
}

const bothFaces = ["front", "back"] as const;

function Batch({ trial }: { trial: TrialDocument }) {
  const record = trialRecord(trial, trial.observations);
  const coupons = record.plan.places.map(({ coupon }) => coupon);
  const [rows, setRows] = useState<BatchRow[]>([]);
  const [face, setFace] = useState<"front" | "back">("front");
  const [date, setDate] = useState(todayDate());
  const change = (id: string, part: Partial<BatchRow>) =>
    setRows((all) => all.map((row) => (row.id === id ? { ...row, ...part } : row)));
  const busy = rows.some(isUnderWay);
  useStayWhile(busy);
  const begun = rows.some(({ state }) => state.is !== "chosen");
  return (
    <main className="batch inspect">
      <p className="lead">{trial.name}</p>
      <h1>{rows.length === 0 ? text.start : `${text.standing(standingOf(rows))}.`}</h1>
      {rows.length === 0 && <p>{text.startMore}</p>}
      {cardForCoupon(record.plan.couponSize) === null ? (
        <p>{text.noCard}</p>
      ) : (
        <FilesButton
          first={rows.length === 0}
          onFiles={(files) => setRows((all) => [...all, ...rowsOf(files, coupons)])}
        />
      )}
      {rows.length > 0 && (
        <>
          {!begun && (
            <Choices
              label={text.face}
              choices={bothFaces}
              chosen={face}
              text={(one) => inspectText.faces[one]}
              onChoose={setFace}
            />
          )}
          {!begun && <LookDate date={date} onDate={setDate} error={null} />}
          <Running record={record} trial={trial} rows={rows} face={face} date={date} onChange={change} />
          <BatchList trial={trial.id} rows={rows} coupons={coupons} onChange={change} />
          <WriteLooks record={record} rows={rows} face={face} date={date} onChange={change} />
        </>
      )}
      <div className="actions">
        <Link href={`/trials/${trial.id}#looks`} className="button quiet">
          {text.back}
        </Link>
      </div>
    </main>
  );
}

function FilesButton({ first, onFiles }: { first: boolean; onFiles: (files: File[]) => void }) {
  return (
    <label className={first ? "button wet" : "button second"}>
      {first ? text.choose : text.chooseMore}
      <input
        type="file"
        multiple
        accept={photoTypes}
        className="sr-only"
        onChange={(event) => {
          onFiles([...(event.target.files ?? [])]);
          event.target.value = "";
        }}
      />
    </label>
  );
}

/** A page closed in the middle stops what it was sending. */
function useStayWhile(busy: boolean) {
  useEffect(() => {
    if (!busy) return;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    addEventListener("beforeunload", ask);
    return () => removeEventListener("beforeunload", ask);
  }, [busy]);
}

type Run = {
  record: TrialRecord;
  trial: TrialDocument;
  rows: BatchRow[];
  face: "front" | "back";
  date: string;
  onChange: (id: string, part: Partial<BatchRow>) => void;
};

/** The work itself: what has to be settled first, start, progress, stop. */
function Running({ record, trial, rows, face, date, onChange }: Run) {
  const [isDry, setDry] = useState(false);
  const [asksDry, setAsksDry] = useState(false);
  const stop = useRef<AbortController | null>(null);
  const shopModel = useChosenModel(trial.id).data?.shopModel ?? null;
  const unsettled = rows.filter((row) => rowFault(row, rows) !== null).length;
  const toDo = rows.filter(isToDo);
  const busy = rows.some(isUnderWay);
  const requestOf = (row: BatchRow, photo: Photo) => {
    const photographs = photographsOf(record, trial.measurements, { coupon: row.coupon!, face });
    const known = { first: firstPhotograph(photographs, date), leftOut: leftOutBefore(photographs, date) };
    return requestFor({
      ...{ id: newId(), photo, corners: null, reads: readsOfTrial(trial.id), surface: "dry and wiped" },
      face: { plan: record.plan, shopModel, ...known },
    });
  };
  const start = () => {
    setAsksDry(!isDry);
    if (!isDry) return;
    stop.current = new AbortController();
    const { signal } = stop.current;
    void runBatch({ rows: toDo, requestOf, signal, progress: (id, state) => onChange(id, { state }) });
  };
  const { all, left } = standingOf(rows);
  return (
    <section aria-live="polite">
      {busy && <progress value={all - left} max={all} aria-label={text.progress} />}
      {busy && <p className="hint">{text.keepOpen}</p>}
      {!busy && toDo.length > 0 && <TickField label={text.dry} ticked={isDry} onTick={setDry} />}
      {asksDry && !isDry && <p className="wrong">{text.dryMissing}</p>}
      {unsettled > 0 && <p className="wrong">{text.settle(unsettled)}</p>}
      <div className="actions">
        {busy ? (
          <button type="button" className="second wet" onClick={() => stop.current?.abort()}>
            {text.cancel}
          </button>
        ) : (
          toDo.length > 0 && (
            <button type="button" className="wet" disabled={unsettled > 0} onClick={start}>
              {toDo.length === all ? text.go(toDo.length) : text.goOn(toDo.length)}
            </button>
          )
        )}
      </div>
    </section>
  );
}
