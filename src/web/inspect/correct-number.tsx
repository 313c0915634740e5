/** A percent that was written down wrongly: the new number and the reason, as a look that replaces the old one. */
import type { Observed, PercentLook } from "../../core/trial/trial-record.ts";
import { NumberField } from "../parts/field.tsx";
import { inspectText, looksGridText } from "../text/inspect.ts";
import { ObserveForm } from "../trial/observe-form.tsx";
import { typedPercent } from "./by-eye-step.tsx";

export function CorrectNumber(props: { trialId: string; look: Observed<PercentLook>; onCorrected: () => void }) {
  const { trialId, look, onCorrected } = props;
  return (
    <ObserveForm
      trialId={trialId}
      about="correct look"
      corrects={look}
      start={() => ({ percent: String(look.body.rustedPercent) })}
      fill={({ percent }) => {
        const rustedPercent = typedPercent(percent);
        if (rustedPercent === null) return { missing: { rustedPercent: inspectText.percentWrong } };
        // A number that a person sets no longer comes from the photograph.
        return { bodies: [{ ...look.body, rustedPercent, how: "eye", measurement: null }] };
      }}
      shown={["rustedPercent"]}
      fields={({ form, change, errorAt }) => (
        <NumberField
          label={looksGridText.newPercent}
          unit="%"
          value={form.percent}
          onType={(percent) => change({ percent })}
          error={errorAt("rustedPercent")}
        />
      )}
      submit={looksGridText.save}
      onWritten={onCorrected}
    />
  );
}
