/** Many photographs chosen at once: each finds its coupon, is sent and measured, and looked at before its look is written down. */
import { useCallback, useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { Photo } from "../../api/photo.ts";
import type { TrialDocument } from "../../api/shop.ts";
import { type TrialRecord, trialRecord } from "../../core/trial/trial-record.ts";
import { cardForCoupon } from "../../core/vision/measuring-card.ts";
import { firstPhotograph, leftOutBefore, photographsOf } from "../inspect/earlier-photographs.ts";
import { readsOfTrial } from "../inspect/kept-reads-of-trial.ts";
import { requestFor } from "../inspect/measuring.ts";
import { Asked } from "../parts/asked.tsx";
import { Choices } from "../parts/choices.tsx";
import { todayDate } from "../parts/clock.ts";
import { TextField, TickField } from "../parts/field.tsx";
import { photoTypes } from "../parts/photo-types.ts";
import { useContact } from "../shop/contact.ts";
import { useTrial } from "../shop/queries.ts";
import { useChosenModel } from "../shop/rust-models.ts";
import { batchText as text } from "../text/batch.ts";
import { inspectText } from "../text/inspect.ts";
import { forgetArrival } from "../waiting/photo-progress.ts";
import { onWaitingChange } from "../waiting/waiting-store.ts";
import { BatchList } from "./batch-list.tsx";
import {
  type BatchRow,
  isAwaited,
  isNeededElsewhere,
  isToDo,
  isToKeep,
  isToMeasure,
  isUnderWay,
  lacksFile,
  lookDateOf,
  rowFault,
  standingOf,
  waitsToBeSent,
  withFiles,
} from "./batch-rows.ts";
import { keptRow, newsOf, takenOutOfQueue } from "./keep-photographs.ts";
import { type Batch as KeptBatch, keepBatch, readBatch } from "./kept-batch.ts";
import { atOnce, measureRow } from "./measure-row.ts";
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
  const { rows, face, date, set, change } = useBatch(trial.id);
  const dateOf = (row: BatchRow) => lookDateOf(row, date, todayDate());
  useKeeping(rows, change);
  useNews(rows, change);
  useStayWhile(rows.some(isToKeep));
  const begun = rows.some(({ isAsked, job }) => isAsked || job !== null);
  const again = rows.filter(lacksFile).length;
  return (
    <main className="batch inspect">
      <p className="lead">{trial.name}</p>
      <h1>{rows.length === 0 ? text.start : `${text.standing(standingOf(rows))}.`}</h1>
      {rows.length === 0 && <p>{text.startMore}</p>}
      {again > 0 && <p className="wrong">{text.again(again)}</p>}
      {cardForCoupon(record.plan.couponSize) === null ? (
        <p>{text.noCard}</p>
      ) : (
        <FilesButton
          first={rows.length === 0 || again > 0}
          onFiles={(files) => set((batch) => ({ ...batch, rows: withFiles(batch.rows, files, coupons) }))}
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
              onChoose={(chosen) => set((batch) => ({ ...batch, face: chosen }))}
            />
          )}
          {!begun && <DateForAll date={date} onDate={(typed) => set((batch) => ({ ...batch, date: typed }))} />}
          <Running record={record} trial={trial} rows={rows} face={face} dateOf={dateOf} onChange={change} />
          <BatchList
            trial={trial.id}
            rows={rows}
            coupons={coupons}
            dateOf={dateOf}
            onChange={change}
            onLeaveOut={(row) => {
              change(row.id, { isLeftOut: true });
              if (row.hash === null || row.photo !== null || isNeededElsewhere(row, rows)) return;
              void takenOutOfQueue(row.hash).then((part) => change(row.id, part));
            }}
          />
          <WriteLooks record={record} rows={rows} face={face} dateOf={dateOf} onChange={change} />
          {!rows.some(isUnderWay) && <PutAway onPutAway={() => set((batch) => ({ ...batch, rows: [] }))} />}
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

/** The batch of this trial on this device, kept at every change. */
function useBatch(trial: string) {
  const [batch, setBatch] = useState<KeptBatch>(
    () => readBatch(trial) ?? { face: "front", date: todayDate(), rows: [] },
  );
  useEffect(() => {
    keepBatch(trial, batch);
    for (const { hash, photo } of batch.rows) if (hash !== null && photo !== null) forgetArrival(hash);
  }, [trial, batch]);
  const change = useCallback(
    (id: string, part: Partial<BatchRow>) =>
      setBatch((all) => ({ ...all, rows: all.rows.map((row) => (row.id === id ? { ...row, ...part } : row)) })),
    [],
  );
  return { ...batch, set: setBatch, change };
}

type Change = (id: string, part: Partial<BatchRow>) => void;

/** Every file that was chosen goes into the queue of this device, one after another, whatever else is still to be settled. */
function useKeeping(rows: readonly BatchRow[], change: Change) {
  const next = rows.find(isToKeep);
  const isBusy = useRef(false);
  useEffect(() => {
    if (!next || isBusy.current) return;
    isBusy.current = true;
    void keptRow(next).then((part) => {
      isBusy.current = false;
      change(next.id, part);
    });
  }, [next, change]);
}

/** What was sent or refused, also while this page stood closed. */
function useNews(rows: readonly BatchRow[], change: Change) {
  const known = useRef(rows);
  known.current = rows;
  useEffect(() => {
    const look = async () => {
      for (const [id, part] of await newsOf(known.current)) change(id, part);
    };
    void look();
    return onWaitingChange(() => void look());
  }, [change]);
}

const DateForAll = ({ date, onDate }: { date: string; onDate: (date: string) => void }) => (
  <TextField
    label={text.dateForAll}
    type="date"
    value={date}
    onType={(typed) => {
      if (typed !== "") onDate(typed);
    }}
    error={null}
  />
);

const PutAway = ({ onPutAway }: { onPutAway: () => void }) => (
  <section>
    <p className="hint">{text.putAwayMore}</p>
    <div className="actions">
      <button type="button" className="quiet" onClick={onPutAway}>
        {text.putAway}
      </button>
    </div>
  </section>
);

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

/** What is not kept yet would be lost with the page. */
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
  dateOf: (row: BatchRow) => string;
  onChange: (id: string, part: Partial<BatchRow>) => void;
};

/** The work itself: what has to be settled first, start, progress, stop. */
function Running({ record, trial, rows, face, dateOf, onChange }: Run) {
  const [isDry, setDry] = useState(false);
  const [asksDry, setAsksDry] = useState(false);
  const stop = useRef(new AbortController());
  const shopModel = useChosenModel(trial.id).data?.shopModel ?? null;
  const unsettled = rows.filter((row) => rowFault(row, rows) !== null).length;
  const toDo = rows.filter(isToDo);
  const awaited = rows.filter(isAwaited);
  const waiting = rows.filter(waitsToBeSent).length;
  const keeping = rows.filter(isToKeep).length;
  const { answers } = useContact();
  const requestOf = (row: BatchRow) => (photo: Photo, id: string) => {
    const photographs = photographsOf(record, trial.measurements, { coupon: row.coupon!, face });
    const date = dateOf({ ...row, photo });
    const known = { first: firstPhotograph(photographs, date), leftOut: leftOutBefore(photographs, date) };
    return requestFor({
      ...{ id, photo, corners: null, reads: readsOfTrial(trial.id), surface: "dry and wiped" },
      face: { plan: record.plan, shopModel, ...known },
    });
  };
  const next = answers && rows.filter(isUnderWay).length < atOnce ? rows.find(isToMeasure) : undefined;
  const begun = useRef(new Set<string>());
  // Whenever the shop has one more and a hand is free: now, after a reload, or when the network is back.
  useEffect(() => {
    if (!next?.photo || begun.current.has(next.id)) return;
    begun.current.add(next.id);
    void measureRow(next, next.photo, {
      requestOf: requestOf(next),
      signal: stop.current.signal,
      tell: (part) => {
        if (part.state && part.state.is !== "measuring") begun.current.delete(next.id);
        onChange(next.id, part);
      },
    });
  });
  const start = () => {
    setAsksDry(!isDry);
    if (!isDry) return;
    stop.current = new AbortController();
    for (const { id, state } of toDo)
      onChange(id, { isAsked: true, ...(state.is === "failed" ? { state: { is: "chosen" } } : {}) });
  };
  const stopAll = () => {
    stop.current.abort();
    for (const { id, state } of awaited) if (state.is === "chosen") onChange(id, { isAsked: false });
  };
  const { all, left } = standingOf(rows);
  const busy = awaited.length > 0;
  return (
    <section aria-live="polite">
      {busy && <progress value={all - left} max={all} aria-label={text.progress} />}
      {keeping > 0 && <p className="hint">{text.keeping(keeping)}</p>}
      {waiting > 0 && <p className="hint">{text.waits(waiting)}</p>}
      {busy && <p className="hint">{text.keepOpen}</p>}
      {!busy && toDo.length > 0 && <TickField label={text.dry} ticked={isDry} onTick={setDry} />}
      {asksDry && !isDry && <p className="wrong">{text.dryMissing}</p>}
      {unsettled > 0 && <p className="wrong">{text.settle(unsettled)}</p>}
      <div className="actions">
        {busy ? (
          <button type="button" className="second wet" onClick={stopAll}>
            {text.cancel}
          </button>
        ) : (
          toDo.length > 0 && (
            <button type="button" className="wet" disabled={unsettled > 0} onClick={start}>
              {rows.some(({ job }) => job !== null) ? text.goOn(toDo.length) : text.go(toDo.length)}
            </button>
          )
        )}
      </div>
    </section>
  );
}
