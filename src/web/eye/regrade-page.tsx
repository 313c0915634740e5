/** A trial's photographs graded again by eye: shuffled, blind, each answer kept as it is given. Phone first. */
import { useMemo, useState } from "react";
import { Link } from "wouter";
import type { TrialDocument } from "../../api/shop.ts";
import { fewestForKappa } from "../../core/rating/eye-agreement.ts";
import { eyeSentences } from "../../core/rating/eye-sentences.ts";
import { photoAgreements, photosToGrade } from "../../core/trial/photo-gradings.ts";
import { type PercentLook, type TrialRecord, trialRecord } from "../../core/trial/trial-record.ts";
import { pictureUrl } from "../inspect/measuring.ts";
import { useAuthor } from "../keep/author.ts";
import { Asked } from "../parts/asked.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { newId } from "../shop/new-id.ts";
import { useObserve, useTrial } from "../shop/queries.ts";
import { regradeText as text } from "../text/regrade.ts";
import { ReadingPad } from "./reading-pad.tsx";
import "../inspect/inspect.css";
import "./eye.css";

export function RegradePage({ id }: { id: string }) {
  return <Asked query={useTrial(id)}>{(trial) => <Regrade trial={trial} />}</Asked>;
}

function Regrade({ trial }: { trial: TrialDocument }) {
  const record = useMemo(() => trialRecord(trial, trial.observations), [trial]);
  const by = useAuthor().trim();
  const next = useMemo(() => photosToGrade(record, by), [record, by]);
  // The pass that was begun: at its end the result is shown, not the next pass.
  const [grading, setGrading] = useState<number | null>(null);
  const photo = grading === next.pass ? next.left[0] : undefined;
  if (photo) return <OnePhoto trial={trial} photo={photo} {...next} by={by} onStop={() => setGrading(null)} />;
  return (
    <main className="inspect">
      <h1>{text.title}</h1>
      <p className="sentence">{next.of === 0 ? text.none : text.sentence}</p>
      <AuthorField />
      {next.of > 0 && (
        <div className="picture-choice">
          <button type="button" className="wet" disabled={by === ""} onClick={() => setGrading(next.pass)}>
            {next.left.length < next.of ? text.goOn(next.left.length, next.of) : text.start(next.pass, next.of)}
          </button>
          {by === "" && <p className="hint">{text.name}</p>}
        </div>
      )}
      <Agreements record={record} />
      <Link href={`/trials/${record.id}#looks`}>{text.back}</Link>
    </main>
  );
}

type One = {
  trial: TrialDocument;
  photo: PercentLook;
  left: PercentLook[];
  of: number;
  by: string;
  onStop: () => void;
};

function OnePhoto({ trial, photo, left, of, by, onStop }: One) {
  const observe = useObserve(trial.id);
  const { coupon, face, when } = photo;
  const measured = trial.measurements.find((one) => one.id === photo.measurement);
  const write = (rustedPercent: number) =>
    observe.mutate([
      { id: newId(), by, corrects: null, body: { kind: "photo grading", coupon, face, when, rustedPercent } },
    ]);
  return (
    <main className="inspect eye">
      <h1 className="eye-head">{text.photo(of - left.length + 1, of)}</h1>
      {measured && <img className="eye-plate" src={pictureUrl(measured.rectified, 1280)} alt={text.alt} />}
      <Trouble error={observe.error} />
      <ReadingPad key={left.length} way="percent" onRead={(read) => !observe.isPending && write(read)} />
      <button type="button" className="quiet" onClick={onStop}>
        {text.stop}
      </button>
    </main>
  );
}

function Agreements({ record }: { record: TrialRecord }) {
  const agreements = photoAgreements(record);
  return (
    <section aria-labelledby="agreements">
      <h2 id="agreements">{text.agreements}</h2>
      {agreements.length === 0 && <p>{text.noAgreements}</p>}
      {agreements.map(({ by, against, agreement }) => (
        <article className="eye-result" key={`${by} ${against}`}>
          <h3>{text.against(by, against)}</h3>
          {eyeSentences(by, "percent", agreement, text.words).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          {agreement.plates < fewestForKappa && (
            <p className="hint">{text.noKappa(fewestForKappa - agreement.plates)}</p>
          )}
        </article>
      ))}
      <p className="hint">{text.verdict}</p>
    </section>
  );
}
