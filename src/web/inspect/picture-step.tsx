/** Camera or file; the photograph is kept on this device until the shop has it. */
import { useEffect, useState, useSyncExternalStore } from "react";
import { Link } from "wouter";
import type { Photo } from "../../api/photo.ts";
import { photoTypes } from "../parts/photo-types.ts";
import { Trouble } from "../parts/trouble.tsx";
import { inspectText } from "../text/inspect.ts";
import { keepReserve } from "../waiting/device-reserve.ts";
import { onPhotoArrived, onShareChange, shareSent } from "../waiting/photo-progress.ts";
import { recordPhoto, sendNow, stopSendingPhoto } from "../waiting/send-waiting.ts";
import { useWaiting } from "../waiting/use-waiting.ts";
import { removeWaiting } from "../waiting/waiting-store.ts";
import { ChosenPicture } from "./chosen-picture.tsx";
import { HeicAdvice, isHeicFile } from "./heic-advice.tsx";

export function PictureStep(props: {
  keepKey: string;
  trial: string;
  onPhoto: (photo: Photo) => void;
  onByEye: () => void;
}) {
  const { keepKey, trial, onPhoto, onByEye } = props;
  const waiting = useWaiting().find((item) => item.kind === "photo" && item.inspection === keepKey);
  const share = useSyncExternalStore(onShareChange, () => shareSent(keepKey));
  const [failure, setFailure] = useState<unknown>(null);
  const [heic, setHeic] = useState(false);
  const [seen, setSeen] = useState<File | null>(null);
  // Before the first photograph, not after it.
  useEffect(() => void keepReserve(), []);
  useEffect(() => onPhotoArrived(keepKey, onPhoto), [keepKey, onPhoto]);

  // What the shop will never take is said here and not kept for another try; in silence it waits.
  const taken = async (file: File | undefined) => {
    if (!file) return;
    setFailure(null);
    const isHeic = await isHeicFile(file);
    setHeic(isHeic);
    if (isHeic) return;
    setSeen(file);
    await recordPhoto(keepKey, file).catch(setFailure);
  };
  if (share !== null) return <Sending share={share} file={seen} onStop={stopSendingPhoto} />;
  return (
    <section className="inspect-step">
      {heic && <HeicAdvice />}
      <Trouble error={failure} />
      {waiting && (
        <div className="waiting">
          <p>{inspectText.waiting}</p>
          <div className="actions">
            <button type="button" className="wet" onClick={() => void sendNow(waiting).catch(setFailure)}>
              {inspectText.sendNow}
            </button>
            <button
              type="button"
              className="quiet"
              onClick={() => {
                setFailure(null);
                void removeWaiting(waiting.id);
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
        accept={photoTypes}
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

function Sending({ share, file, onStop }: { share: number; file: File | null; onStop: () => void }) {
  return (
    <section className="inspect-step" aria-live="polite">
      <p className="sentence">{inspectText.sending}</p>
      <progress value={share} max={1} aria-label={inspectText.sending} />
      <div className="actions">
        <button type="button" className="second wet" onClick={onStop}>
          {inspectText.stopSending}
        </button>
      </div>
      {file && <ChosenPicture file={file} />}
    </section>
  );
}
