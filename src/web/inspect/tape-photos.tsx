/** The cut before and after the pull: two photographs, their corners, and what is read from them once the eye has chosen. */
import { useMutation } from "@tanstack/react-query";
import { useEffect, useRef, useState } from "react";
import { type TapeReadingRequest, tapeReadingAnswer } from "../../api/tape-photo.ts";
import type { TapePhotoReading } from "../../core/trial/tape-test.ts";
import { usualXMm } from "../../core/vision/tape-cuts.ts";
import { photoTypes } from "../parts/photo-types.ts";
import { Trouble } from "../parts/trouble.tsx";
import { ask, json, NoAnswer } from "../shop/ask.ts";
import { tapeTestText as text } from "../text/tape.ts";
import { waitingText } from "../text/waiting.ts";
import { takePhoto, withdrawPhoto } from "../waiting/take-photo.ts";
import { startCorners } from "./corner-geometry.ts";
import { CornerPicker } from "./corner-picker.tsx";
import { HeicAdvice, isHeicFile } from "./heic-advice.tsx";
import { pictureUrl } from "./measuring.ts";
import type { LatticeCut } from "./tape-details.ts";
import { type TapePhoto, tapeRequest } from "./tape-request.ts";

export type TapePhotos = {
  before: TapePhoto | null;
  after: TapePhoto | null;
  reading: TapePhotoReading | null;
  /** The shop was not reached: the photographs are read once it is. */
  later: boolean;
};

export function TapePhotosPart(props: {
  photos: TapePhotos;
  lattice: LatticeCut | null;
  eyeClass: string;
  coupon: string;
  onChange: (part: Partial<TapePhotos>) => void;
}) {
  const { photos, lattice, eyeClass, coupon, onChange } = props;
  const { before, after, reading, later } = photos;
  const cancel = useRef(new AbortController());
  useEffect(() => () => cancel.current.abort(), []);
  const read = useMutation({
    mutationFn: async (request: TapeReadingRequest) => {
      cancel.current = new AbortController();
      return ask(tapeReadingAnswer, "/api/tape-readings", {
        ...json("POST", request),
        signal: cancel.current.signal,
      });
    },
    onSuccess: (answer) => {
      onChange({ later: false, ...(answer.read ? { reading: answer.reading } : {}) });
    },
    onError: (failure) => {
      if (failure instanceof NoAnswer) onChange({ later: true });
    },
  });
  const cut = lattice ? "B" : "A";
  return (
    <div>
      {(["before", "after"] as const).map((which) => (
        <OnePhoto
          key={which}
          which={which}
          coupon={coupon}
          cut={cut}
          taken={photos[which]}
          onTaken={(taken, waits) => {
            // What was said, or is being read, is of the pictures and rings as they were.
            cancel.current.abort();
            read.reset();
            const other = photos[which === "before" ? "after" : "before"];
            const replaced = photos[which]?.photo.hash;
            if (replaced && replaced !== taken.photo.hash && replaced !== other?.photo.hash)
              void withdrawPhoto(replaced);
            onChange({ [which]: taken, reading: null, ...(waits ? { later: true } : {}) });
          }}
        />
      ))}
      {before && after && reading === null && (
        <>
          {!isCancelled(read.error) && !later && <Trouble error={read.error} />}
          {later && <p className="sentence">{text.later}</p>}
          {read.data?.read === false && <p className="wrong">{read.data.sentence}</p>}
          {eyeClass === "" && <p className="hint">{text.eyeFirst}</p>}
          <div className="actions">
            <button
              type="button"
              className="wet"
              disabled={eyeClass === "" || read.isPending}
              onClick={() => read.mutate(tapeRequest(before, after, lattice))}
            >
              {read.isPending ? text.reading : text.read}
            </button>
            {read.isPending && (
              <button type="button" className="second" onClick={() => cancel.current.abort()}>
                {text.cancel}
              </button>
            )}
          </div>
        </>
      )}
      {reading && <ReadTape reading={reading} lattice={lattice} eyeClass={eyeClass} />}
    </div>
  );
}

const isCancelled = (error: unknown): boolean => error instanceof DOMException && error.name === "AbortError";

function OnePhoto(props: {
  which: "before" | "after";
  coupon: string;
  cut: "A" | "B";
  taken: TapePhoto | null;
  onTaken: (taken: TapePhoto, waits?: boolean) => void;
}) {
  const { which, coupon, cut, taken, onTaken } = props;
  const [failure, setFailure] = useState<unknown>(null);
  const [heic, setHeic] = useState(false);
  const [busy, setBusy] = useState(false);
  const send = async (file: File | undefined) => {
    if (!file) return;
    setFailure(null);
    const isHeic = await isHeicFile(file);
    setHeic(isHeic);
    if (isHeic) return;
    setBusy(true);
    try {
      const { photo, written } = await takePhoto(file, waitingText.tapePhoto(which, coupon));
      const shape = cut === "B" ? { lengthMm: 10, widthMm: 10 } : usualXMm;
      onTaken({ photo, corners: startCorners(photo, shape) }, written === "waiting");
    } catch (error) {
      setFailure(error);
    } finally {
      setBusy(false);
    }
  };
  return (
    <section>
      <h3>{text[which]}</h3>
      {heic && <HeicAdvice />}
      <Trouble error={failure} />
      {busy && <progress aria-label={text.take(which)} />}
      {taken && (
        <>
          <p className="hint">{text.corners[cut]}</p>
          <CornerPicker
            photo={taken.photo}
            corners={taken.corners}
            onChange={(corners) => onTaken({ ...taken, corners })}
          />
        </>
      )}
      <label className={taken ? "button second" : "button wet"}>
        {taken ? text.another : text.take(which)}
        <input
          type="file"
          accept={photoTypes}
          capture="environment"
          className="sr-only"
          onChange={(event) => {
            void send(event.target.files?.[0]);
            event.target.value = "";
          }}
        />
      </label>
    </section>
  );
}

function ReadTape(props: { reading: TapePhotoReading; lattice: LatticeCut | null; eyeClass: string }) {
  const { reading, lattice, eyeClass } = props;
  const { removedPercent, span, tapeClass, isoClass, otherClass, mapPercents, overlay } = reading;
  const columns = lattice ? lattice.cuts - 1 : 2;
  return (
    <section aria-live="polite">
      <p className="sentence">
        {text.readSentence(removedPercent, tapeClass, text.iso[lattice ? "B" : "A"](isoClass))} {text.eyeSaid(eyeClass)}
      </p>
      <p className="hint">{text.span(span.from, span.to)}</p>
      {otherClass && <p className="sentence">{text.between(tapeClass, otherClass)}</p>}
      <img className="tape-overlay" src={pictureUrl(overlay)} alt={text.overlayAlt} />
      <details className="more">
        <summary>{text.mapLabel}</summary>
        <div className="tape-map" style={{ gridTemplateColumns: `repeat(${columns}, 1fr)` }}>
          {mapPercents.map((percent, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a square is its place
            <span key={at}>{percent.toFixed(0)}</span>
          ))}
        </div>
      </details>
    </section>
  );
}
