/** A percent that was written down wrongly: the new number and the reason, as a look that replaces the old one. */
import type { Look, Observed } from "../../core/trial/trial-record.ts";
import { useDraft } from "../keep/draft.ts";
import { NumberField } from "../parts/field.tsx";
import { errorAt } from "../shop/field-errors.ts";
import { inspectText, looksGridText } from "../text/inspect.ts";
import { ObserveForm } from "../trial/observe-form.tsx";
import { typedPercent } from "./by-eye-step.tsx";

export function CorrectNumber(props: { trialId: string; look: Observed<Look>; onCorrected: () => void }) {
  const { trialId, look, onCorrected } = props;
  const draftKey = `correct look ${look.id}`;
  const draft = useDraft(draftKey, () => ({ percent: String(look.body.rustedPercent), why: "" }));
  return (
    <ObserveForm
      trialId={trialId}
      draftKey={draftKey}
      draft={draft}
      corrects={look}
      fill={() => {
        const rustedPercent = typedPercent(draft.form.percent);
        if (rustedPercent === null) return { missing: { percent: inspectText.percentWrong } };
        // A number that a person sets no longer comes from the photograph.
        return { bodies: [{ ...look.body, rustedPercent, how: "eye", measurement: null }] };
      }}
      submit={looksGridText.save}
      shown={["/body/rustedPercent"]}
      onWritten={onCorrected}
      fields={(missing: { percent?: string }, error) => (
        <NumberField
          label={looksGridText.newPercent}
          unit="%"
          value={draft.form.percent}
          onType={(percent) => draft.change({ percent })}
          error={missing.percent ?? errorAt(error, "/body/rustedPercent")}
        />
      )}
    />
  );
}
