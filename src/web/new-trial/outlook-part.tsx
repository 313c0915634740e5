/** What this plan can and cannot show, said before anything is coated, and what would make it tell more. */
import { useDeferredValue, useMemo } from "react";
import type { PlanDraft } from "../../api/plan.ts";
import type { ExpectedMedians } from "../../core/trial/look-calendar.ts";
import { OutlookReading } from "../outlook/outlook-reading.tsx";
import { readOutlook } from "../outlook/read-outlook.ts";
import { hasSharedDifference, withSingleSteps } from "../outlook/single-steps.ts";
import { newTrialText } from "../text/new-trial.ts";
import { outlookText } from "../text/outlook.ts";
import type { TreatmentForm } from "./trial-form.ts";

const text = newTrialText.outlook;

export function OutlookPart({
  draft,
  expected,
  treatments,
  onTreatments,
}: {
  draft: PlanDraft | null;
  expected: ExpectedMedians | null;
  treatments: TreatmentForm[];
  onTreatments: (treatments: TreatmentForm[]) => void;
}) {
  // As a string, so that the same draft typed anew is not worked out anew; deferred, so that typing comes first.
  const wanted = useDeferredValue(draft === null ? null : JSON.stringify({ draft, expected }));
  const read = useMemo(() => {
    if (wanted === null) return null;
    const said: { draft: PlanDraft; expected: ExpectedMedians | null } = JSON.parse(wanted);
    return readOutlook(said.draft, said.expected);
  }, [wanted]);
  return (
    <aside className="outlook" aria-labelledby="outlook-title">
      <h2 id="outlook-title">{text.title}</h2>
      {read === null && <p>{text.notYet}</p>}
      {read?.refusal && <p className="wrong">{read.refusal}</p>}
      {read?.outlook && (
        <>
          {read.outlook.proposals.length > 0 && (
            <section aria-label={outlookText.proposals}>
              <h3>{outlookText.proposals}</h3>
              <ul>
                {read.outlook.proposals.map((proposal) => (
                  <li key={proposal}>{proposal}</li>
                ))}
              </ul>
              {hasSharedDifference(treatments) && (
                <button type="button" className="second" onClick={() => onTreatments(withSingleSteps(treatments))}>
                  {outlookText.single}
                </button>
              )}
            </section>
          )}
          <OutlookReading outlook={read.outlook} />
          {read.outlook.lookWarnings.length > 0 && (
            <section aria-label={outlookText.looks}>
              <h3>{outlookText.looks}</h3>
              <ul>
                {read.outlook.lookWarnings.map((warning) => (
                  <li key={warning}>{warning}</li>
                ))}
              </ul>
            </section>
          )}
        </>
      )}
    </aside>
  );
}
