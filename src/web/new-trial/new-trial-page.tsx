/** A new trial: what is asked, what is compared, how many, when to look; then the lot is drawn. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { type ReactNode, useState } from "react";
import { useLocation } from "wouter";
import { type NewTrial, newTrial } from "../../api/plan.ts";
import { useAuthor } from "../keep/author.ts";
import { useDraft } from "../keep/draft.ts";
import { keepExpected } from "../keep/expected.ts";
import { NumberField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { errorAt as serverErrorAt } from "../shop/field-errors.ts";
import { newId, newSeed } from "../shop/new-id.ts";
import { usePreferences } from "../shop/queries.ts";
import { newTrialText } from "../text/new-trial.ts";
import { recordText } from "../text/parts.ts";
import { waitingText } from "../text/waiting.ts";
import { recordMessage } from "../waiting/send-waiting.ts";
import { AskedPart } from "./asked-part.tsx";
import { expectedOf } from "./chance-form.ts";
import { LooksPart } from "./looks-part.tsx";
import { OutlookPart } from "./outlook-part.tsx";
import { QuestionPart } from "./question-part.tsx";
import { SizePart } from "./size-part.tsx";
import { TreatmentsPart } from "./treatments-part.tsx";
import { draftOf, expectedMedians, type FormPart, type FormProblem, startForm } from "./trial-form.ts";

export function NewTrialPage() {
  const preferences = usePreferences();
  const draft = useDraft("new trial", () => startForm({ id: newId(), seed: newSeed(), length: preferences.length }));
  const { form, change } = draft;
  const author = useAuthor();
  const [asksName] = useState(author === "");
  const [refused, setRefused] = useState<FormProblem[]>([]);
  const make = useMakeTrial(() => {
    keepExpected(form.id, expectedOf(form));
    draft.clear();
  });
  const read = draftOf(form);

  // A field that was put right falls silent at once; one that was never sent is not nagged about.
  const errorAt = (pointer: string) => {
    const still = refused.length > 0 ? read.problems.find((one) => one.pointer === pointer) : undefined;
    return still?.detail ?? serverErrorAt(make.error, pointer);
  };
  const part: FormPart = { form, change, errorAt };
  const send = () => {
    const unsigned = author.trim() === "" ? [{ pointer: "/by", detail: recordText.youMissing }] : [];
    setRefused([...read.problems, ...unsigned]);
    if (read.draft === null || unsigned.length > 0) return;
    const name = form.name.trim() || newTrialText.draw.trialNamed(form.question.trim());
    make.mutate({ id: form.id, name, by: author.trim(), draft: read.draft });
  };

  return (
    <main>
      <h1>{newTrialText.start}</h1>
      <form
        noValidate
        className="two-sides"
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        <div>
          <QuestionPart {...part} />
          <TreatmentsPart
            treatments={form.treatments}
            onChange={(treatments) => change({ treatments })}
            errorAt={errorAt}
          />
          <SizePart {...part} />
          <LooksPart {...part} />
          <AskedPart {...part} />
        </div>
        <OutlookPart
          draft={read.draft}
          expected={expectedMedians(form)}
          treatments={form.treatments}
          onTreatments={(treatments) => change({ treatments })}
        />
        <DrawPart
          {...part}
          nameField={
            asksName ? <AuthorField error={refused.find((one) => one.pointer === "/by")?.detail ?? null} /> : null
          }
          toDo={refused.length > 0 ? read.problems.length : 0}
          error={make.error}
          drawing={make.isPending}
          onThrowAway={draft.begun ? draft.clear : null}
        />
      </form>
    </main>
  );
}

function useMakeTrial(onMade: () => void) {
  const client = useQueryClient();
  const [, go] = useLocation();
  return useMutation({
    mutationFn: (trial: NewTrial) =>
      recordMessage({
        id: trial.id,
        path: "/api/trials",
        body: newTrial.parse(trial),
        words: waitingText.trial(trial.name),
      }),
    onSuccess: (written, trial) => {
      onMade();
      void client.invalidateQueries();
      // Not drawn yet, it has no page: it is among what waits.
      go(written === "stored" ? `/trials/${trial.id}` : "/waiting");
    },
  });
}

const text = newTrialText.draw;

function DrawPart({
  form,
  change,
  errorAt,
  nameField,
  toDo,
  error,
  drawing,
  onThrowAway,
}: FormPart & {
  nameField: ReactNode;
  toDo: number;
  error: unknown;
  drawing: boolean;
  onThrowAway: (() => void) | null;
}) {
  return (
    <section aria-labelledby="draw-title">
      <h2 id="draw-title">{text.title}</h2>
      <p className="lead">{text.explain}</p>
      <NumberField
        label={text.seed}
        value={form.seed}
        onType={(seed) => change({ seed })}
        error={errorAt("/draft/seed")}
      />
      {nameField}
      <Trouble error={error} shown={shownFields} />
      {toDo > 0 && (
        <p role="alert" className="wrong">
          {newTrialText.problemsFirst(toDo)}
        </p>
      )}
      <div className="actions">
        <button type="submit" className="wet" disabled={drawing}>
          {drawing ? text.going : text.go}
        </button>
        {onThrowAway && (
          <button type="button" className="quiet" onClick={() => confirm(newTrialText.throwAwaySure) && onThrowAway()}>
            {newTrialText.throwAway}
          </button>
        )}
        <small>{newTrialText.kept}</small>
      </div>
    </section>
  );
}

const shownFields = [
  "/name",
  "/draft/question",
  "/draft/questions",
  "/draft/treatments",
  "/draft/blocks",
  "/draft/sparesOfEach",
  "/draft/couponSize",
  "/draft/edgeBandMm",
  "/draft/rustThresholdPercent",
  "/draft/lookDays",
  "/draft/rackColumns",
  "/draft/blockSize",
  "/draft/batchesOfEach",
  "/draft/spread",
  "/draft/testCoupons",
  "/draft/seed",
];
