/** Corners for photographs that waited and could not be read as they were: set here, they are read again in their old place. */
import { useEffect, useState } from "react";
import { type Corners, type PictureSize, startCorners } from "../inspect/corner-geometry.ts";
import { CornerPicker } from "../inspect/corner-picker.tsx";
import { pictureUrl } from "../inspect/measuring.ts";
import { Trouble } from "../parts/trouble.tsx";
import { waitingText } from "../text/waiting.ts";
import { cornersAsked, withCorners } from "./reading-corners.ts";
import { sendWaiting } from "./send-waiting.ts";
import type { WaitingReading } from "./waiting-item.ts";
import { replaceWaiting } from "./waiting-store.ts";
import "../inspect/inspect.css";

export function CornersForm({ item, onDone }: { item: WaitingReading; onDone: () => void }) {
  const asked = cornersAsked(item.reading);
  const [set, setSet] = useState<(Corners | null)[]>(asked.map(({ corners }) => corners));
  const [failure, setFailure] = useState<unknown>(null);
  const send = async () => {
    await replaceWaiting({ ...item, reading: withCorners(item.reading, set), refused: null });
    onDone();
    void sendWaiting();
  };
  return (
    <>
      <p>{waitingText.corners}</p>
      {asked.map(({ photo, which, sizeMm }, at) => (
        <div key={which}>
          {asked.length > 1 && <h3>{waitingText.cornersOf[which]}</h3>}
          <SizedPicker
            hash={photo}
            corners={set[at] ?? null}
            start={(size) => startCorners(size, sizeMm)}
            onChange={(corners) => setSet((all) => all.with(at, corners))}
          />
        </div>
      ))}
      <Trouble error={failure} />
      <div className="actions">
        <button
          type="button"
          className="wet"
          disabled={set.includes(null)}
          onClick={() => void send().catch(setFailure)}
        >
          {waitingText.cornersSend}
        </button>
        <button type="button" className="quiet" onClick={onDone}>
          {waitingText.back}
        </button>
      </div>
    </>
  );
}

/** Corners are counted in px of the whole upright picture: how large that is, the picture itself tells. */
function SizedPicker(props: {
  hash: string;
  corners: Corners | null;
  start: (size: PictureSize) => Corners;
  onChange: (corners: Corners) => void;
}) {
  const { hash, corners, start, onChange } = props;
  const [size, setSize] = useState<PictureSize | null>(null);
  const [failure, setFailure] = useState<unknown>(null);
  useEffect(() => {
    const picture = new Image();
    picture.src = pictureUrl(hash);
    picture.decode().then(
      () => setSize({ widthPx: picture.naturalWidth, heightPx: picture.naturalHeight }),
      () => setFailure(new Error(waitingText.noPicture)),
    );
  }, [hash]);
  const begun = size && !corners ? start(size) : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when the size is known
  useEffect(() => {
    if (begun) onChange(begun);
  }, [size]);
  if (!size || !corners) return failure ? <Trouble error={failure} /> : <progress aria-label={waitingText.corners} />;
  return <CornerPicker photo={{ hash, ...size }} corners={corners} onChange={onChange} />;
}
