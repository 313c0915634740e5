/** "N photographs were read by an older way": read again one after another, with progress and a stop. */
import { useRef, useState } from "react";
import type { ShopModelName } from "../../api/photo.ts";
import type { TrialDocument } from "../../api/shop.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { useAuthor } from "../keep/author.ts";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { useObserve } from "../shop/queries.ts";
import { readAgainText as text } from "../text/reading.ts";
import { olderReadings } from "./older-readings.ts";
import { readAgain } from "./read-again.ts";

type Older = { trial: TrialDocument; reading: { shopModel: ShopModelName | null; method: string }; name: string };
type Running = { all: number; done: number; refused: { coupon: string; why: string }[] };

export function OlderPart({ trial, reading, name }: Older) {
  const record = trialRecord(trial, trial.observations);
  const { older, byHand } = olderReadings(record, trial.measurements, reading.method);
  const author = useAuthor();
  const [asksName] = useState(author === "");
  const [unsigned, setUnsigned] = useState(false);
  const [running, setRunning] = useState<Running | null>(null);
  const [error, setError] = useState<Error | null>(null);
  const stop = useRef<AbortController | null>(null);
  const observe = useObserve(trial.id);
  const busy = stop.current !== null;
  if (older.length === 0 && !running) return null;
  const start = async () => {
    setUnsigned(author.trim() === "");
    if (author.trim() === "") return;
    const controller = new AbortController();
    stop.current = controller;
    setError(null);
    setRunning({ all: older.length, done: 0, refused: [] });
    await readAgain({
      ...{ older, shopModel: reading.shopModel, by: author.trim(), why: text.reason(name), signal: controller.signal },
      write: (observation) => observe.mutateAsync([observation]),
      progress: (done, refused) =>
        setRunning((now) => now && { ...now, done, refused: refused ? [...now.refused, refused] : now.refused }),
    }).catch((failure: unknown) => {
      if (!controller.signal.aborted) setError(failure instanceof Error ? failure : new Error(String(failure)));
    });
    stop.current = null;
    setRunning((now) => now && { ...now });
  };
  return (
    <section className="older-readings" aria-live="polite">
      <h2>{older.length > 0 ? text.title(older.length) : text.done}</h2>
      {record.unblinded ? (
        <p>{text.closed}</p>
      ) : (
        <>
          {older.length > 0 && <p>{text.sentence(name)}</p>}
          {byHand > 0 && <p className="hint">{text.byHand(byHand)}</p>}
          {asksName && <AuthorField error={unsigned ? text.youMissing : null} />}
          {running && busy && <progress value={running.done} max={running.all} aria-label={text.progress} />}
          {running && <p>{text.standing(running.done, running.all)}</p>}
          {running?.refused.map(({ coupon, why }) => (
            <p key={coupon} className="wrong">
              {text.refused(coupon, why)}
            </p>
          ))}
          <Trouble error={error} />
          <div className="actions">
            {busy ? (
              <button type="button" className="second wet" onClick={() => stop.current?.abort()}>
                {text.stop}
              </button>
            ) : (
              older.length > 0 && (
                <button type="button" className="wet" onClick={() => void start()}>
                  {text.start}
                </button>
              )
            )}
          </div>
        </>
      )}
    </section>
  );
}
