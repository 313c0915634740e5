/** A look without a photograph: the percent as somebody judges it. */
import { useDraft } from "../keep/draft.ts";
import { NumberField, TickField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { errorAt } from "../shop/field-errors.ts";
import { inspectText } from "../text/inspect.ts";
import { type Filled, ObserveForm } from "../trial/observe-form.tsx";
import { type InspectedFace, lookOf } from "./inspected-face.ts";
import { LookDate, lookDatePointers } from "./look-date.tsx";

type Field = "percent" | "edge";

export function ByEyeStep(props: { face: InspectedFace; onRecorded: () => void; onPhoto: () => void }) {
  const { face, onRecorded, onPhoto } = props;
  const draftKey = `look by eye ${face.keepKey}`;
  const draft = useDraft(draftKey, () => ({ percent: "", edge: "", knew: false, why: "" }));
  const { form, change } = draft;
  const fill = (): Filled<Field> => {
    const rustedPercent = typedPercent(form.percent);
    const edgePercent = form.edge.trim() === "" ? null : typedPercent(form.edge);
    const edgeWrong = form.edge.trim() !== "" && edgePercent === null;
    if (rustedPercent === null || edgeWrong)
      return {
        missing: {
          ...(rustedPercent === null ? { percent: inspectText.percentWrong } : {}),
          ...(edgeWrong ? { edge: inspectText.percentWrong } : {}),
        },
      };
    const look = lookOf(face, { rustedPercent, edgePercent, how: "eye", measurement: null });
    return { bodies: [{ ...look, blind: face.blind && !form.knew }] };
  };
  return (
    <section className="inspect-step">
      <ObserveForm
        trialId={face.trial}
        draftKey={draftKey}
        draft={draft}
        corrects={null}
        fill={fill}
        submit={inspectText.record}
        shown={["/body/rustedPercent", "/body/edgePercent", ...lookDatePointers]}
        onWritten={onRecorded}
        fields={(missing, error) => (
          <>
            <NumberField
              label={inspectText.percent}
              hint={inspectText.percentHint}
              unit="%"
              value={form.percent}
              onType={(percent) => change({ percent })}
              error={missing.percent ?? errorAt(error, "/body/rustedPercent")}
            />
            <NumberField
              label={inspectText.edgePercent}
              unit="%"
              value={form.edge}
              onType={(edge) => change({ edge })}
              error={missing.edge ?? errorAt(error, "/body/edgePercent")}
            />
            {face.blind && (
              <TickField label={inspectText.knew} ticked={form.knew} onTick={(knew) => change({ knew })} />
            )}
            <LookDate date={face.date} onDate={face.onDate} error={error} />
          </>
        )}
      />
      <button type="button" className="quiet" onClick={onPhoto}>
        {inspectText.withPhoto}
      </button>
    </section>
  );
}

/** 0 to 100 as typed, with a point or a comma; null when it is no such number. */
export function typedPercent(typed: string): number | null {
  const value = typedNumber(typed.replace("%", ""));
  return value !== null && value >= 0 && value <= 100 ? value : null;
}
