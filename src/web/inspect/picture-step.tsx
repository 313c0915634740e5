/** Camera or file; the photograph is kept on this device until the shop has it. */
import { useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { Photo } from "../../api/photo.ts";
import { Trouble } from "../parts/trouble.tsx";
import { Refused } from "../shop/ask.ts";
import { inspectText } from "../text/inspect.ts";
import { sendPhoto } from "./send-photo.ts";
import { dropWaitingPhoto, keepWaitingPhoto, waitingPhoto } from "./waiting-photo.ts";

export function PictureStep(props: {
  keepKey: string;
  trial: string;
  onPhoto: (photo: Photo) => void;
  onByEye: () => void;
}) {
  const { keepKey, trial, onPhoto, onByEye } = props;
  const [waiting, setWaiting] = useState<Blob | null>(null);
  const [share, setShare] = useState<number | null>(null);
  const [failure, setFailure] = useState<unknown>(null);
  const stop = useRef<AbortController | null>(null);

  useEffect(() => {
    let here = true;
    void waitingPhoto(keepKey).then((file) => here && setWaiting(file));
    return () => {
      here = false;
      stop.current?.abort();
    };
  }, [keepKey]);

  const throwAway = async () => {
    await dropWaitingPhoto(keepKey);
    setWaiting(null);
  };

  const send = async (file: Blob) => {
    const controller = new AbortController();
    stop.current = controller;
    setFailure(null);
    setShare(0);
    try {
      const photo = await sendPhoto({ file, progress: setShare, signal: controller.signal });
      await dropWaitingPhoto(keepKey);
      onPhoto(photo);
    } catch (error) {
      if (!controller.signal.aborted) setFailure(error);
      // What the shop will never take is not kept for another try.
      if (error instanceof Refused) await throwAway();
    } finally {
      setShare(null);
    }
  };
  const taken = async (file: File | undefined) => {
    if (!file) return;
    setWaiting(file);
    await keepWaitingPhoto(keepKey, file);
    await send(file);
  };
  if (share !== null) return <Sending share={share} onStop={() => stop.current?.abort()} />;
  return (
    <section className="inspect-step">
      <Trouble error={failure} />
      {waiting && (
        <div className="waiting">
          <p>{inspectText.waiting}</p>
          <div className="actions">
            <button type="button" className="wet" onClick={() => void send(waiting)}>
              {inspectText.sendNow}
            </button>
            <button
              type="button"
              className="quiet"
              onClick={() => {
                setFailure(null);
                void throwAway();
              }}
            >
              {inspectText.throwAway}
            </button>
          </div>
        </div>
      )}
      <div className="picture-choice">
        <FileButton label={inspectText.take} camera main={!waiting} onFile={taken} />
        <FileButton label={inspectText.choose} camera={false} main={false} onFile={taken} />
      </div>
      <p className="hint">
        {inspectText.hints} <Link href={`/card/${trial}`}>{inspectText.printCard}</Link>
      </p>
      <button type="button" className="quiet" onClick={onByEye}>
        {inspectText.byEye}
      </button>
    </section>
  );
}

function FileButton(props: {
  label: string;
  camera: boolean;
  main: boolean;
  onFile: (file: File | undefined) => Promise<void>;
}) {
  return (
    <label className={props.main ? "button wet" : "button second wet"}>
      {props.label}
      <input
        type="file"
        accept="image/*"
        className="sr-only"
        {...(props.camera ? { capture: "environment" as const } : {})}
        onChange={(event) => {
          void props.onFile(event.target.files?.[0]);
          // The same file chosen again must be noticed.
          event.target.value = "";
        }}
      />
    </label>
  );
}

function Sending({ share, onStop }: { share: number; onStop: () => void }) {
  return (
    <section className="inspect-step" aria-live="polite">
      <p className="sentence">{inspectText.sending}</p>
      <progress value={share} max={1} aria-label={inspectText.sending} />
      <div className="actions">
        <button type="button" className="second wet" onClick={onStop}>
          {inspectText.stopSending}
        </button>
      </div>
    </section>
  );
}
