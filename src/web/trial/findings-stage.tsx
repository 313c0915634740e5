/** Findings, the report to print, and the closing of the trial, after which treatments stand beside coupons. */
import { lazy, Suspense } from "react";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { findingsAreOpen } from "../findings/findings-are-open.ts";
import { trialText } from "../text/trial.ts";
import { ObserveForm } from "./observe-form.tsx";
import { More, StageSection } from "./stage.tsx";

const FindingsSection = lazy(async () => ({
  default: (await import("../findings/findings-section.tsx")).FindingsSection,
}));

const text = trialText.findings;

export function FindingsStage({ record }: { record: TrialRecord }) {
  return (
    <StageSection id="findings">
      <Suspense>
        <FindingsSection record={record} />
      </Suspense>
      {!findingsAreOpen(record) && (
        <div className="actions">
          <a href={`/api/trials/${record.id}/report`} className="button" target="_blank" rel="noreferrer">
            {text.report}
          </a>
        </div>
      )}
      {record.unblinded ? (
        <p className="lead">{text.closed}</p>
      ) : (
        <More label={text.close}>
          <p>{text.closeExplain}</p>
          <CloseForm record={record} />
        </More>
      )}
    </StageSection>
  );
}

function CloseForm({ record }: { record: TrialRecord }) {
  return (
    <ObserveForm
      trialId={record.id}
      about="close"
      start={() => ({})}
      fill={() => ({ bodies: [{ kind: "unblinding" }] })}
      fields={() => <p>{text.closeAsk}</p>}
      submit={text.closeGo}
    />
  );
}
