/** What this plan can and cannot show, said before anything is coated. */
import type { PlanDraft } from "../../api/plan.ts";
import { newTrialText } from "../text/new-trial.ts";
import type { TreatmentForm } from "./trial-form.ts";

const text = newTrialText.outlook;

export function OutlookPart({
  draft,
}: {
  draft: PlanDraft | null;
  treatments: TreatmentForm[];
  onTreatments: (treatments: TreatmentForm[]) => void;
}) {
  return (
    <aside className="outlook" aria-live="polite" aria-labelledby="outlook-title">
      <h2 id="outlook-title">{text.title}</h2>
      {draft === null && <p>{text.notYet}</p>}
    </aside>
  );
}
