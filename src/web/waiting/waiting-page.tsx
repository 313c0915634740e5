/** What was recorded on this device and is not in the shop yet, in the order in which it will be sent. */
import { useEffect, useState, useSyncExternalStore } from "react";
import { Link } from "wouter";
import { TextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { instantText } from "../text/parts.ts";
import { waitingText } from "../text/waiting.ts";
import { begunInspections } from "./begun-inspections.ts";
import { CornersForm } from "./corners-form.tsx";
import { useDeviceRoom } from "./device-room.ts";
import { MendForm } from "./mend-form.tsx";
import { onShareChange, shareSent } from "./photo-progress.ts";
import { refusalWords } from "./refusal-words.ts";
import { sendNow, sendWaiting } from "./send-waiting.ts";
import { TakenAway } from "./taken-away.tsx";
import { useWaiting, useWaitingIsRead } from "./use-waiting.ts";
import type { DroppedItem, WaitingItem } from "./waiting-item.ts";
import { droppedItems, dropWaiting, onWaitingChange } from "./waiting-store.ts";
import { waitingWords } from "./waiting-words.ts";

export function WaitingPage() {
  return useWaitingIsRead() ? <WhatWaits /> : <main aria-busy="true" />;
}

function WhatWaits() {
  const waiting = useWaiting();
  const room = useDeviceRoom();
  return (
    <main className="waiting-page">
      <h1>{waiting.length === 0 ? waitingText.nothing : waitingText.sentence(waiting.length)}</h1>
      {waiting.length > 0 && (
        <>
          <p>{waitingText.more}</p>
          <ol className="bare">
            {waiting.map((item) => (
              <WaitingRow key={item.id} item={item} />
            ))}
          </ol>
        </>
      )}
      <ToRate />
      <TakenAway waiting={waiting} />
      <Dropped />
      {/* The browser tells it late: below what is pressed it moves nothing. */}
      {room && <p className="hint">{waitingText.room(room.usedBytes, room.freeBytes)}</p>}
      {waiting.some(({ refused }) => refused === null) && (
        <div className="actions in-reach">
          <button type="button" className="wet" onClick={() => void sendWaiting()}>
            {waitingText.sendAll}
          </button>
        </div>
      )}
    </main>
  );
}

function WaitingRow({ item }: { item: WaitingItem }) {
  const [way, setWay] = useState<"read" | "mend" | "corners" | "drop">("read");
  const [failure, setFailure] = useState<unknown>(null);
  const read = () => setWay("read");
  return (
    <li className="record">
      <b>{waitingWords(item)}</b>
      <p className="when">{waitingText.written(instantText(item.writtenAt))}</p>
      {item.kind === "photo" && <OnItsWay inspection={item.inspection} />}
      {item.refused && <p className="wrong">{waitingText.refused(refusalWords(item.refused))}</p>}
      <Trouble error={failure} />
      {way === "mend" && item.kind === "observation" && <MendForm item={item} onDone={read} />}
      {way === "corners" && item.kind === "reading" && <CornersForm item={item} onDone={read} />}
      {way === "drop" && <DropForm item={item} onBack={read} />}
      {way === "read" && (
        <div className="actions">
          {item.refused && (
            <button type="button" className="second" onClick={() => void sendNow(item).catch(setFailure)}>
              {waitingText.again}
            </button>
          )}
          {item.refused && item.kind === "observation" && (
            <button type="button" className="second" onClick={() => setWay("mend")}>
              {waitingText.mend}
            </button>
          )}
          {item.refused && item.kind === "reading" && (
            <button type="button" className="second" onClick={() => setWay("corners")}>
              {waitingText.setCorners}
            </button>
          )}
          <button type="button" className="quiet" onClick={() => setWay("drop")}>
            {waitingText.drop}
          </button>
        </div>
      )}
    </li>
  );
}

function OnItsWay({ inspection }: { inspection: string }) {
  const share = useSyncExternalStore(onShareChange, () => shareSent(inspection));
  if (share === null) return null;
  return <progress value={share} max={1} aria-label={waitingText.onItsWay(share)} />;
}

function DropForm({ item, onBack }: { item: WaitingItem; onBack: () => void }) {
  const [why, setWhy] = useState("");
  const [missing, setMissing] = useState(false);
  const drop = () => {
    setMissing(why.trim() === "");
    if (why.trim() !== "") void dropWaiting(item, why.trim());
  };
  return (
    <>
      <TextField
        label={waitingText.dropWhy}
        value={why}
        onType={setWhy}
        error={missing ? waitingText.dropWhyMissing : null}
      />
      <div className="actions">
        <button type="button" onClick={drop}>
          {waitingText.dropGo}
        </button>
        <button type="button" className="quiet" onClick={onBack}>
          {waitingText.back}
        </button>
      </div>
    </>
  );
}

function ToRate() {
  const begun = begunInspections();
  if (begun.length === 0) return null;
  return (
    <section>
      <h2>{waitingText.toRate}</h2>
      <p className="plate-list">
        {begun.map(({ trial, coupon, face }) => (
          <Link
            key={`${trial} ${coupon} ${face}`}
            className="button second wet"
            href={`/trials/${trial}/inspect/${encodeURIComponent(coupon)}`}
          >
            {waitingText.rate(coupon, face)}
          </Link>
        ))}
      </p>
    </section>
  );
}

function Dropped() {
  const [dropped, setDropped] = useState<DroppedItem[]>([]);
  useEffect(() => {
    const read = () => void droppedItems().then(setDropped);
    read();
    return onWaitingChange(read);
  }, []);
  if (dropped.length === 0) return null;
  return (
    <details className="more">
      <summary>{waitingText.dropped(dropped.length)}</summary>
      <ul className="bare">
        {dropped.map(({ item, why, droppedAt }) => (
          <li key={item.id} className="record">
            {waitingWords(item)}
            <p className="when">{waitingText.droppedWhy(instantText(droppedAt), why)}</p>
          </li>
        ))}
      </ul>
    </details>
  );
}
