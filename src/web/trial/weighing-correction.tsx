/** A weighing that was read or typed wrongly: another mass, nothing else. */
import type { Observed, TrialRecord, Weighing } from "../../core/trial/trial-record.ts";
import { NumberField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { testsText } from "../text/tests.ts";
import { weighingText as text } from "../text/weighing.ts";
import { ObserveForm } from "./observe-form.tsx";

export function WeighingCorrection(props: {
  record: TrialRecord;
  corrects: Observed<Weighing>;
  onWritten: () => void;
}) {
  const { record, corrects, onWritten } = props;
  return (
    <ObserveForm
      trialId={record.id}
      about="weighing"
      corrects={corrects}
      start={() => ({ mass: String(corrects.body.massG) })}
      fill={({ mass }) => {
        const massG = typedNumber(mass);
        return massG === null
          ? { missing: { massG: testsText.needsNumber } }
          : { bodies: [{ ...corrects.body, massG }] };
      }}
      shown={["massG"] as const}
      fields={({ form, change, errorAt }) => (
        <NumberField
          label={text.mass}
          unit="g"
          value={form.mass}
          onType={(mass) => change({ mass })}
          error={errorAt("massG")}
        />
      )}
      submit={testsText.keep}
      onWritten={onWritten}
    />
  );
}
