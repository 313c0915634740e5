/** The plan of a trial corrected: the form of a new trial filled with it, and what a change means before it is kept. */
import { useMemo, useState } from "react";
import { Link, useLocation } from "wouter";
import { isLotFollowed } from "../../core/trial/plan-correction.ts";
import { type PlanWording, type TrialRecord, trialRecord } from "../../core/trial/trial-record.ts";
import { AskedPart } from "../new-trial/asked-part.tsx";
import { CouponFields } from "../new-trial/coupon-fields.tsx";
import { LooksPart } from "../new-trial/looks-part.tsx";
import { QuestionWords } from "../new-trial/question-part.tsx";
import { SizePart } from "../new-trial/size-part.tsx";
import { TreatmentsPart } from "../new-trial/treatments-part.tsx";
import type { FormPart, TrialForm } from "../new-trial/trial-form.ts";
import { Asked } from "../parts/asked.tsx";
import { NumberField } from "../parts/field.tsx";
import { newSeed } from "../shop/new-id.ts";
import { usePreferences, useTrial } from "../shop/queries.ts";
import { correctPlanText as text } from "../text/correct-plan.ts";
import { newTrialText } from "../text/new-trial.ts";
import { ObserveForm } from "../trial/observe-form.tsx";
import { CorrectionMeaning } from "./correction-meaning.tsx";
import { type Correcting, formOfPlan } from "./plan-form.ts";
import { planRead } from "./plan-read.ts";

export function CorrectPlanPage({ id }: { id: string }) {
  return (
    <Asked query={useTrial(id)}>
      {(trial) => {
        const record = trialRecord(trial, trial.observations);
        const written = record.plans.at(-1);
        return written && <CorrectPlan opened={{ record, written }} />;
      }}
    </Asked>
  );
}

function CorrectPlan({ opened }: { opened: { record: TrialRecord; written: PlanWording } }) {
  // As it stood when the page opened: news of the correction itself must not begin the form anew before it can close.
  const [{ record, written }] = useState(opened);
  const { length } = usePreferences();
  const [, go] = useLocation();
  const [seed] = useState(newSeed);
  const before = written.body.plan;
  const began = useMemo(() => formOfPlan(before, { seed, length }), [before, seed, length]);
  const correcting: Correcting = { before, began, lotFollowed: isLotFollowed(record) };
  return (
    <main>
      <h1>{text.title(record.name)}</h1>
      <p className="lead">{correcting.lotFollowed ? text.lotStays : text.allOpen}</p>
      <p className="lead">{record.seen.includes("look") ? text.looksSeen : text.noLookYet}</p>
      <ObserveForm<TrialForm, string>
        trialId={record.id}
        about="plan"
        corrects={written}
        start={() => began}
        fill={(form) => {
          const read = planRead(form, correcting, record);
          if (read.plan === null) return { missing: read.problems };
          return { bodies: [{ kind: "plan", plan: read.plan }] };
        }}
        fields={(drawn) => (
          <div className="two-sides">
            <PlanParts {...drawn} lotFollowed={correcting.lotFollowed} />
            <CorrectionMeaning read={planRead(drawn.form, correcting, record)} />
          </div>
        )}
        submit={text.keep}
        onWritten={() => go(`/trials/${record.id}`)}
      />
      <div className="actions">
        <Link href={`/trials/${record.id}`} className="button quiet">
          {text.back}
        </Link>
      </div>
    </main>
  );
}

function PlanParts({ lotFollowed, ...part }: FormPart & { lotFollowed: boolean }) {
  const { form, change, errorAt } = part;
  return (
    <div>
      <section aria-labelledby="words-title">
        <h2 id="words-title">{newTrialText.question.title}</h2>
        <QuestionWords {...part} />
      </section>
      <AskedPart {...part} />
      <LooksPart {...part} />
      {lotFollowed ? (
        <section aria-labelledby="coupon-title">
          <h2 id="coupon-title">{text.coupon}</h2>
          <div className="fields">
            <CouponFields {...part} />
          </div>
        </section>
      ) : (
        <>
          <TreatmentsPart
            treatments={form.treatments}
            onChange={(treatments) => change({ treatments })}
            errorAt={errorAt}
          />
          <SizePart {...part} />
          <NumberField
            label={text.seed}
            hint={text.seedHint}
            value={form.seed}
            onType={(typed) => change({ seed: typed })}
            error={errorAt("/draft/seed")}
          />
        </>
      )}
    </div>
  );
}
