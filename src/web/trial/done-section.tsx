/** Done to them: each step as it was really carried out, and what went otherwise than planned. */
import type { Application, Deviation, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import { quantityText } from "../parts/quantity.ts";
import { usePreferences } from "../shop/queries.ts";
import { instantText } from "../text/parts.ts";
import { trialText } from "../text/trial.ts";
import { ApplicationFormPart } from "./application-form.tsx";
import { DeviationFormPart } from "./deviation-form.tsx";
import { RecordRow } from "./record-row.tsx";
import { More, StageSection } from "./stage.tsx";
import { throughStep } from "./where-it-stands.ts";

const text = trialText.done;

export function DoneSection({ record }: { record: TrialRecord }) {
  const { applications, deviations } = record;
  const steps = [...new Set(applications.map((one) => one.body.step))];
  return (
    <StageSection id="done" sentence={text.sentence(applications.length, deviations.length)}>
      {steps.map((step) => (
        <More key={step} label={`${step}: ${text.through(throughStep(record, step).size)}`}>
          <ul className="bare">
            {applications
              .filter((one) => one.body.step === step)
              .map((one) => (
                <ApplicationRow key={one.id} record={record} application={one} />
              ))}
          </ul>
        </More>
      ))}
      {deviations.length > 0 && (
        <ul className="bare">
          {deviations.map((one) => (
            <DeviationRow key={one.id} record={record} deviation={one} />
          ))}
        </ul>
      )}
      <More label={text.record}>
        <ApplicationFormPart record={record} />
      </More>
      <More label={text.deviate}>
        <DeviationFormPart record={record} />
      </More>
    </StageSection>
  );
}

function ApplicationRow({ record, application }: { record: TrialRecord; application: Observed<Application> }) {
  const preferences = usePreferences();
  const { startedAt, endedAt, tempC, note, coupons } = application.body;
  const when = [startedAt, endedAt].flatMap((instant) => (instant === null ? [] : [instantText(instant)])).join(" to ");
  return (
    <RecordRow
      trialId={record.id}
      observed={application}
      form={(onWritten) => <ApplicationFormPart record={record} corrects={application} onWritten={onWritten} />}
    >
      <p>
        <Plates coupons={coupons} /> {when}
        {tempC !== null && `, ${text.temperature(quantityText("temp", tempC, preferences))}`}
        {note && `. ${note}`}
      </p>
    </RecordRow>
  );
}

function DeviationRow({ record, deviation }: { record: TrialRecord; deviation: Observed<Deviation> }) {
  const { what, step, coupons, paperworkOnly } = deviation.body;
  return (
    <RecordRow
      trialId={record.id}
      observed={deviation}
      form={(onWritten) => <DeviationFormPart record={record} corrects={deviation} onWritten={onWritten} />}
    >
      <p>
        <span aria-hidden="true">⚑ </span>
        <Plates coupons={coupons} /> {step && `${step}: `}
        {what}
        {paperworkOnly && ` (${text.paper})`}
      </p>
    </RecordRow>
  );
}

export function Plates({ coupons }: { coupons: readonly string[] }) {
  return (
    <span className="plate-list">
      {coupons.map((coupon) => (
        <span key={coupon} className="plate-no">
          {coupon}
        </span>
      ))}
    </span>
  );
}
