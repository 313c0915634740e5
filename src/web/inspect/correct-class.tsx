/** A class that was written down wrongly: another class of the same scale and the reason, as a look that replaces the old one. */
import { scaleEnds, scaleTitles } from "../../core/trial/scale-ends.ts";
import type { ClassLook, Observed } from "../../core/trial/trial-record.ts";
import { ChoiceField } from "../parts/field.tsx";
import { looksGridText } from "../text/inspect.ts";
import { ObserveForm } from "../trial/observe-form.tsx";

export function CorrectClass(props: { trialId: string; look: Observed<ClassLook>; onCorrected: () => void }) {
  const { trialId, look, onCorrected } = props;
  const { scale, rating } = look.body;
  return (
    <ObserveForm
      trialId={trialId}
      about="correct look"
      corrects={look}
      start={() => ({ rating: String(rating) })}
      fill={(form) => ({ bodies: [{ ...look.body, rating: Number(form.rating), how: "eye" }] })}
      shown={["rating"]}
      fields={({ form, change, errorAt }) => (
        <ChoiceField
          label={looksGridText.newClass(scaleTitles[scale])}
          value={form.rating}
          choices={classesOf(scale).map((one) => ({ value: one, label: one }))}
          onChoose={(chosen) => change({ rating: chosen })}
          error={errorAt("rating")}
        />
      )}
      submit={looksGridText.save}
      onWritten={onCorrected}
    />
  );
}

/** From the best to the worst. */
function classesOf(scale: ClassLook["scale"]): string[] {
  const { best, worst } = scaleEnds[scale];
  const step = worst > best ? 1 : -1;
  return Array.from({ length: Math.abs(worst - best) + 1 }, (_, at) => String(best + step * at));
}
